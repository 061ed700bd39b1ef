/** The work of a plan by pair of hands: for each a few tasks, as they would stand on a card, with what belongs to them. */
import { z } from 'zod'
import { FurnishingId, LaneId } from '../../domain/ids.ts'
import { PlannedTask } from '../../domain/plan.ts'
import { piecesName } from '../../domain/setup-names.ts'
import type { SiteSetup } from '../../domain/snapshot.ts'
import { TaskKey, TaskKind } from '../../domain/task.ts'
import { stintsByLane, stintText } from '../../scheduler/decide/index.ts'
import type { LaneLabel } from './lane-labels.ts'

const StintAnswer = z.object({
  text: z.string().meta({ description: 'What it is, in a few words, as it would stand on a card' }),
  kinds: z.array(TaskKind),
  furnishingId: FurnishingId.nullable(),
  zones: z.array(z.int().min(1)).meta({ description: 'Ascending; none: it names no zone' }),
  startsAt: PlannedTask.shape.startsAt,
  endsAt: PlannedTask.shape.endsAt,
  goesOn: z.boolean().meta({
    description: 'The same task as the one before, after a pause of more than half an hour, a night for one',
  }),
  tasks: z.array(TaskKey).meta({ description: 'Keys of its tasks, by start' }),
})

export const LaneAnswer = z.object({
  laneId: LaneId,
  label: z.string(),
  stints: z.array(StintAnswer).meta({
    description:
      'The same tasks as few as people see them: runs of the same work on the same pieces, by start',
  }),
  tasks: z.array(TaskKey).meta({ description: 'Keys of its tasks, by start, those at the event among them' }),
})
export type LaneAnswer = z.infer<typeof LaneAnswer>

/** By lane id. @param tasks  in order of start */
export const lanesOf = (
  tasks: readonly PlannedTask[],
  setup: Pick<SiteSetup, 'furnishings' | 'retired'>,
  label: LaneLabel,
): LaneAnswer[] =>
  [...stintsByLane(tasks)].map(([laneId, stints]) => ({
    laneId,
    label: label(laneId),
    stints: stints.map((stint) => {
      const { kinds, furnishingId, zones, startsAt, endsAt, goesOn } = stint
      return {
        text: stintText(stint, furnishingId && piecesName(setup, furnishingId)),
        kinds: [...kinds],
        furnishingId,
        zones: [...zones],
        startsAt,
        endsAt,
        goesOn,
        tasks: stint.tasks.map(({ key }) => key),
      }
    }),
    tasks: stints.flatMap((stint) => stint.tasks.map(({ key }) => key)),
  }))
