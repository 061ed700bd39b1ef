/**
 * No piece comes from nowhere or gets lost: of each kind a plan sets as many more than it takes away as are wanted more
 * than stand. What comes beyond that is counted elsewhere: whether the site owns as many as stand in all rooms at one
 * time is nothing that a decision looks at yet.
 */
import type { Furnishing, FurnishingKind } from '../../../domain/furnishing.ts'
import type { FurnishingId } from '../../../domain/ids.ts'
import type { TaskKind } from '../../../domain/task.ts'
import type { Turn } from '../../../domain/turn.ts'
import { homeTurnInputOf, type TurnInput, turnInputOf } from '../../timeline/turn-input.ts'
import { layoutOf, type World } from '../../timeline/world.ts'
import type { WholeSite } from './whole-site.ts'

/** Cloths and settings are changed for clean ones, which are others. */
const changed: ReadonlySet<FurnishingKind> = new Set(['table-cloth', 'place-setting'])
const signs: ReadonlyMap<TaskKind, 1 | -1> = new Map([
  ['set', 1],
  ['strike', -1],
  ['park', -1],
])

export const piecesConserved = ({ world, toCome }: WholeSite): string[] =>
  toCome.flatMap((turn) => {
    const input = inputOf(world, turn)
    // That it was planned for something else is said elsewhere.
    if (input?.inputHash !== turn.inputHash || turn.plan === null) return []
    return [...world.furnishingsById.values()].flatMap((piece) => pieceFaults(world, turn, input, piece))
  })

function pieceFaults(world: World, turn: Turn, input: TurnInput, { id, kind }: Furnishing): string[] {
  if (changed.has(kind)) return []
  const tasks = (turn.plan?.tasks ?? []).filter(({ furnishingId }) => furnishingId === id)
  const brought = tasks.reduce((sum, task) => sum + (signs.get(task.kind) ?? 0) * (task.count ?? 0), 0)
  const stood = countOf(input.network.standing, id)
  const wanted = countOf(layoutOf(world, turn.toLayoutId).furnishings, id)
  const stands = stood + brought
  return stands === wanted ? [] : [`${turn.id} leaves ${stands} of ${id} standing, and ${wanted} are wanted`]
}

function inputOf(world: World, { bookingId, purpose }: Turn): TurnInput | null {
  const booking = world.bookings.find(({ id }) => id === bookingId)
  if (!booking) return null
  return purpose === 'prepare' ? turnInputOf(world, booking) : homeTurnInputOf(world, booking)
}

const countOf = (
  pieces: readonly { readonly furnishingId: FurnishingId; readonly count: number }[],
  id: FurnishingId,
): number =>
  pieces.filter(({ furnishingId }) => furnishingId === id).reduce((sum, { count }) => sum + count, 0)
