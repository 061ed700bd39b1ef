/** The resources of an instance: what there is of everything that is shared, and what plans and closures leave of it. */
import type { Closure } from '../../../domain/closure.ts'
import type { HalfOpenInterval } from '../../../domain/half-open-interval.ts'
import type { PassageId } from '../../../domain/ids.ts'
import type { Task } from '../../../domain/task.ts'
import type { TurnInput } from '../../timeline/turn-input.ts'
import type { World } from '../../timeline/world.ts'
import type { InstanceResource } from '../../turn/index.ts'
import { capacitySteps } from './capacity-steps.ts'
import { isTurnWork } from './event-tasks.ts'
import type { Reservations } from './reservations.ts'
import type { TickGrid } from './tick-grid.ts'

/** As the task network names the resource that a passage is. */
const passageKey = (passageId: PassageId): string => `passage:${passageId}`

interface Found {
  readonly capacity: number | null
  /** When there is none of it. */
  readonly closures: readonly HalfOpenInterval[]
}

type AlsoHeld = (task: Task) => readonly { readonly resource: string; readonly amount: number }[]

/** Neither the room nor any store of its pieces closes for a time. */
export const NOTHING_CLOSES: AlsoHeld = () => []

/** What limits how much goes on at once, of all parts together, and what plans and closures leave of it. */
export class InstanceResources {
  private readonly grid: TickGrid
  private readonly reservations: Reservations
  private readonly closures: readonly Closure[]
  /** By key, in the order in which they came. `null`: as much as there can be tasks. */
  private readonly found = new Map<string, Found>()
  private readonly indices = new Map<string, number>()

  constructor(world: World, span: HalfOpenInterval, grid: TickGrid, reservations: Reservations) {
    this.grid = grid
    this.reservations = reservations
    this.closures = world.closures.filter(({ fromAt, toAt }) => fromAt < span.toAt && toAt > span.fromAt)
  }

  /** Where two turns know different numbers of something, the smaller one holds. */
  add(key: string, capacity: number): void {
    const known = this.found.get(key)?.capacity
    const closures = this.closures.filter(({ passageIds }) =>
      passageIds.some((passageId) => key === passageKey(passageId)),
    )
    this.put(key, { capacity: Math.min(capacity, known ?? capacity), closures })
  }

  /**
   * The room, and each store of its pieces, where they close for a time: everything is done in the room. And a device
   * that stands in another room too, while somebody is there.
   */
  addOpen(input: TurnInput): AlsoHeld {
    const { room } = input
    const places = [
      {
        key: `open:${room.id}`,
        closures: this.closures.filter(({ sectionIds }) =>
          sectionIds.some((id) => room.sectionIds.includes(id)),
        ),
        needs: (_task: Task) => true,
      },
      ...input.network.storagePlaces.map((store) => {
        const kept = new Set(
          input.network.furnishings.filter((one) => one.storagePlaceId === store.id).map(({ id }) => id),
        )
        return {
          key: `open:${store.id}`,
          closures: this.closures.filter(({ storagePlaceIds }) => storagePlaceIds.includes(store.id)),
          needs: ({ furnishingId, fromPlace, toPlace }: Task) =>
            furnishingId !== null && kept.has(furnishingId) && [fromPlace, toPlace].includes(store.name),
        }
      }),
      ...input.asks.devicesHeld.map(({ equipmentId, untilAt }) => ({
        key: `moved:${equipmentId}:${room.id}`,
        closures: [{ fromAt: input.releaseAt, toAt: untilAt }],
        needs: (task: Task) => task.kind === 'switch' && task.equipmentId === equipmentId,
      })),
    ].filter(({ closures }) => closures.length > 0)
    if (places.length === 0) return NOTHING_CLOSES
    for (const { key, closures } of places) this.put(key, { capacity: null, closures })
    return (task) =>
      places
        .filter(({ needs }) => isTurnWork(task) && needs(task))
        .map(({ key }) => ({ resource: key, amount: 1 }))
  }

  /** -1: nothing limits it. */
  indexOf(key: string): number {
    return this.indices.get(key) ?? -1
  }

  list(taskCount: number): InstanceResource[] {
    const { clip, floorTick, ceilTick } = this.grid
    return [...this.found].map(([key, { capacity, closures }]) => {
      const all = capacity ?? Math.max(1, taskCount)
      const taken = ({ fromAt, toAt }: HalfOpenInterval, amount: number) => {
        const { from, to } = clip(floorTick(fromAt), ceilTick(toAt))
        return { from, to, amount }
      }
      const held = this.reservations.ofResource(key).map((one) => taken(one, one.amount))
      const closed = closures.map((one) => taken(one, all))
      return { key, capacity: capacitySteps(all, [...held, ...closed]) }
    })
  }

  private put(key: string, found: Found): void {
    if (!this.indices.has(key)) this.indices.set(key, this.indices.size)
    this.found.set(key, found)
  }
}
