/** What somebody who turns a room tells of it: moments as text, everything else as the core takes it. */
import { z } from 'zod'
import type { Instant } from '../../domain/instant.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { TurnProgress } from '../../domain/turn-progress.ts'
import { settingProblem } from '../equipment/setting-problem.ts'
import { InstantReader, InstantText } from '../instant-text.ts'
import { repeated } from '../known-ids.ts'
import { bodyFault, type Fault, refuseFaults } from '../problems.ts'
import { strictly } from '../setup/body-schemas.ts'

const { done, running, missing, added, stands } = TurnProgress.shape
const span = {
  fromAt: InstantText.nullable().default(null).meta({ description: 'null: from now on' }),
  toAt: InstantText.nullable().default(null).meta({ description: 'null: for good' }),
}

export const ReplanBody = strictly(
  z.object({
    askedAt: InstantText.nullable().default(null).meta({
      description: 'As if it were that moment, to try out what would be; null: now',
    }),
    done: z
      .array(
        done.element.extend({
          doneAt: InstantText.nullable().default(null).meta({ description: 'null: nobody knows when' }),
        }),
      )
      .max(500)
      .default([])
      .meta({ description: 'Tasks of the plan that are done, in whichever order' }),
    running: running.default([]).meta({ description: 'Tasks that somebody is at' }),
    missing: z
      .array(missing.element.extend(span))
      .max(100)
      .default([])
      .meta({ description: 'Hands the plan may count on that are not there' }),
    added: z
      .array(added.element.extend(span))
      .max(40)
      .default([])
      .meta({ description: 'Hands that have come beside those on duty' }),
    stands: stands.default(null).meta({
      description: 'What stands in the room, where that is not what the tasks done have left; null: it is',
    }),
  }),
)
export type ReplanBody = z.infer<typeof ReplanBody>

/**
 * @returns what is told, and the moment it is asked about
 * @throws Problem invalid-input
 */
export function progressFrom(
  body: ReplanBody,
  setup: SiteSetup,
  now: Instant,
): { readonly progress: TurnProgress; readonly askedAt: Instant } {
  const reader = new InstantReader(setup.site.zone, 'body')
  const read = (at: string, text: string | null) => (text === null ? null : reader.read(at, text))
  const spanOf = (at: string, one: { readonly fromAt: string | null; readonly toAt: string | null }) => ({
    fromAt: read(`${at}/fromAt`, one.fromAt),
    toAt: read(`${at}/toAt`, one.toAt),
  })
  const askedAt = read('/askedAt', body.askedAt) ?? now
  const progress: TurnProgress = {
    done: body.done.map(({ taskKey, doneAt }, index) => ({
      taskKey,
      doneAt: read(`/done/${index}/doneAt`, doneAt),
    })),
    running: body.running,
    missing: body.missing.map((one, index) => ({ ...one, ...spanOf(`/missing/${index}`, one) })),
    added: body.added.map((one, index) => ({ ...one, ...spanOf(`/added/${index}`, one) })),
    stands: body.stands,
  }
  refuseFaults([...reader.faults, ...settingFaults(body, setup)])
  return { progress, askedAt }
}

/** Whether each device is in the room is for the turn to say. */
function settingFaults({ stands: told }: ReplanBody, setup: SiteSetup): Fault[] {
  const list = told?.equipment ?? []
  const ids = list.map(({ equipmentId }) => equipmentId)
  return [
    ...repeated((index) => `/stands/equipment/${index}/equipmentId`, ids, 'equipment'),
    ...list.flatMap(({ equipmentId, setting }, index) => {
      const device = setup.equipment.find(({ id }) => id === equipmentId)
      const problem = device ? settingProblem(device, setting) : null
      return device && problem !== null
        ? [bodyFault(`/stands/equipment/${index}/setting`, `${device.name}: ${problem}`)]
        : []
    }),
  ]
}
