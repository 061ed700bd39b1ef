/** Problems as files: valid ones in which a test names only what matters to it. */
import type { z } from 'zod'
import type { InstanceDocument } from '../../src/plan-file/instance-document.ts'

type Written = z.input<typeof InstanceDocument>

/** One turn of one task for Ada, ten ticks long. */
export const aDocument = (parts: Partial<Written> = {}): Written => ({
  format: 'turnwright-instance',
  version: 1,
  horizonTick: 100,
  turns: [{ key: 'hall' }],
  activities: [{ key: 'sweep', modes: [{ durationTicks: 10, hands: [{ count: 1 }] }] }],
  lanes: [{ key: 'Ada', available: [{ fromTick: 0, toTick: 100 }] }],
  ...parts,
})
