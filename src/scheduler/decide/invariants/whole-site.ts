/** A site and what of its plans each rule may be asked about. */
import type { SiteSnapshot } from '../../../domain/snapshot.ts'
import type { Turn } from '../../../domain/turn.ts'
import { type World, worldOf } from '../../timeline/world.ts'
import { underWaySince } from '../operations/under-way.ts'

export interface WholeSite {
  readonly snapshot: SiteSnapshot
  readonly world: World
  /** Turns that hold a plan. */
  readonly planned: readonly Turn[]
  /**
   * Those of them that are not under way and were judged as the hall is now: a shift may be changed after what was done
   * in it, and what is stale stands as it stood.
   */
  readonly toCome: readonly Turn[]
}

/** One sentence for each broken promise; empty: it holds. */
export type Rule = (site: WholeSite) => string[]

export function wholeSite(snapshot: SiteSnapshot): WholeSite {
  const planned = snapshot.turns.filter((turn) => turn.plan !== null)
  const isJudged = ({ dueAt }: Turn) => snapshot.judgedThroughAt === null || dueAt < snapshot.judgedThroughAt
  const toCome = planned.filter((turn) => underWaySince(turn, snapshot.now) === null && isJudged(turn))
  return { snapshot, world: worldOf(snapshot), planned, toCome }
}
