/** The tasks of a turn that are left: of the plan that people carry, or made anew from what stands. */
import type { FurnishingId } from '../../domain/ids.ts'
import { instantPlusSeconds, laterOf } from '../../domain/instant.ts'
import type { Plan } from '../../domain/plan.ts'
import type { TaskKey, TaskNetwork } from '../../domain/task.ts'
import type { StandsNow } from '../../domain/turn-progress.ts'
import { isTurnWork } from '../decide/index.ts'
import { rememberedNetwork } from '../decide/plan/remembered-network.ts'
import { StateUnreachable } from '../network/index.ts'
import { withoutTasks } from '../network/without-tasks.ts'
import { alsoKnowing } from '../timeline/network-input-of.ts'
import type { TurnInput } from '../timeline/turn-input.ts'
import type { World } from '../timeline/world.ts'
import { networkFromWhatStands } from './from-what-stands.ts'
import { partlyAsPlanned } from './partly-as-planned.ts'
import { kindsNotAsPlanned, type Told } from './pieces-left.ts'
import type { RunningNow } from './running-now.ts'
import { withRunning } from './tasks-running.ts'

/** With what is running as time alone; what is over before anything else could begin is left out. */
export function networkLeft(
  world: World,
  plan: Plan,
  input: TurnInput,
  done: ReadonlySet<TaskKey>,
  running: readonly RunningNow[],
  stands: StandsNow | null,
): TaskNetwork {
  const tellsOf = { done, running: new Set(running.map(({ task }) => task.key)) }
  const whole =
    stands === null ? networkOfPlan(plan, input) : networkToldOf(world, plan, input, tellsOf, stands)
  const gone = new Set(running.filter(({ secondsLeft }) => secondsLeft === 0).map(({ task }) => task.key))
  const seconds = new Map(
    running.filter(({ secondsLeft }) => secondsLeft > 0).map((one) => [one.task.key, one.secondsLeft]),
  )
  // First what runs: what is done behind it waits for it all the same.
  return withoutTasks(withRunning(whole, seconds), new Set([...done, ...gone]))
}

/** Of kinds of pieces that stand as planned the tasks of the plan; a device that is told of has everything made anew. */
function networkToldOf(
  world: World,
  plan: Plan,
  input: TurnInput,
  tellsOf: Told,
  stands: StandsNow,
): TaskNetwork {
  const known = knowingWhatStands(world, input, stands)
  const other = kindsNotAsPlanned(known, plan, tellsOf, stands)
  if (stands.equipment.length > 0) return networkFromWhatStands(known, plan, tellsOf, stands)
  if (other.size === 0) return networkOfPlan(plan, input)
  const isOther = ({ furnishingId }: { readonly furnishingId: FurnishingId }) => other.has(furnishingId)
  const ofOthers = {
    ...known,
    toLayout: { ...known.toLayout, furnishings: known.toLayout.furnishings.filter(isOther) },
  }
  const anew = networkFromWhatStands(ofOthers, plan, tellsOf, {
    ...stands,
    pieces: stands.pieces.filter(isOther),
  })
  return partlyAsPlanned(networkOfPlan(plan, input), anew, other, tellsOf)
}

/** Something may stand there that neither layout has. */
const knowingWhatStands = (world: World, { network, releaseAt, dueAt }: TurnInput, stands: StandsNow) =>
  alsoKnowing(
    world,
    network,
    { fromAt: releaseAt, toAt: laterOf(dueAt, instantPlusSeconds(releaseAt, 1)) },
    stands.pieces.map(({ furnishingId }) => furnishingId),
  )

/** As it was planned, whatever has become of the hall: with what its network says today where it is the same. */
function networkOfPlan({ tasks, resources }: Plan, input: TurnInput): TaskNetwork {
  const today = networkToday(input)
  const byKey = new Map(today?.tasks.map((task) => [task.key, task]))
  return {
    tasks: tasks.filter(isTurnWork).map((task) => ({
      ...task,
      optional:
        task.optional ?? (byKey.get(task.key)?.text === task.text && byKey.get(task.key)?.optional === true),
    })),
    resources,
    milestones: today?.milestones ?? [],
  }
}

function networkToday(input: TurnInput): TaskNetwork | null {
  try {
    return rememberedNetwork(input)
  } catch (error) {
    if (error instanceof StateUnreachable) return null
    throw error
  }
}
