/**
 * Turns with plans, by the days that these hold something in, so that among all turns of a site those near one of them
 * are found at once.
 */
import { type HalfOpenInterval, overlaps } from '../../../domain/half-open-interval.ts'
import type { TurnId } from '../../../domain/ids.ts'
import type { Turn } from '../../../domain/turn.ts'
import { heldSpan } from './held-span.ts'

const DAY_MS = 86_400_000

export class StandingTurns {
  private readonly byDay = new Map<number, Map<TurnId, Turn>>()
  private readonly byId = new Map<TurnId, Turn>()

  constructor(turns: readonly Turn[]) {
    for (const turn of turns) this.put(turn)
  }

  /** It stands from now on, instead of what it was. */
  put(turn: Turn): void {
    this.remove(turn.id)
    if (turn.plan === null) return
    this.byId.set(turn.id, turn)
    for (const day of daysOf(heldSpan(turn.plan))) {
      const known = this.byDay.get(day)
      if (known) known.set(turn.id, turn)
      else this.byDay.set(day, new Map([[turn.id, turn]]))
    }
  }

  /** Nothing where it does not stand. */
  remove(turnId: TurnId): void {
    const turn = this.byId.get(turnId)
    if (!turn?.plan) return
    this.byId.delete(turnId)
    for (const day of daysOf(heldSpan(turn.plan))) this.byDay.get(day)?.delete(turnId)
  }

  /** @returns each turn once whose plan holds anything in the span; by start, then id */
  during(span: HalfOpenInterval): Turn[] {
    const found: { readonly turn: Turn; readonly fromAt: number }[] = []
    const days = daysOf(span)
    for (const day of days) {
      for (const turn of this.byDay.get(day)?.values() ?? []) {
        const held = turn.plan && heldSpan(turn.plan)
        // One that reaches over midnight was found on its first day.
        const isNew = held && day === Math.max(days[0]!, dayOf(held.fromAt))
        if (isNew && overlaps(held, span)) found.push({ turn, fromAt: held.fromAt })
      }
    }
    found.sort((a, b) => a.fromAt - b.fromAt || (a.turn.id < b.turn.id ? -1 : 1))
    return found.map(({ turn }) => turn)
  }
}

const dayOf = (at: number): number => Math.floor(at / DAY_MS)

/** That of its start, and all that it reaches into. */
function daysOf({ fromAt, toAt }: HalfOpenInterval): number[] {
  const first = dayOf(fromAt)
  const count = Math.max(0, dayOf(toAt) - first)
  return Array.from({ length: count + 1 }, (_, index) => first + index)
}
