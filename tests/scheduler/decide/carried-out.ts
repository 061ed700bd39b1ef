/** Operations carried out one call after the other, each as a coordinator would meet it; no promise may break by it. */
import { expect } from 'vitest'
import type { Booking } from '../../../src/domain/booking.ts'
import type { Decision } from '../../../src/domain/decision.ts'
import type { Operation } from '../../../src/domain/operation.ts'
import type { Plan } from '../../../src/domain/plan.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import type { Turn } from '../../../src/domain/turn.ts'
import { brokenInvariants, decide, operationProblems } from '../../../src/scheduler/decide/index.ts'
import { snapshotAfter } from './a-hall.ts'

/** @throws Error with the sentences of a refusal, or of what cannot be decided on at all */
export function carriedOut(
  snapshot: SiteSnapshot,
  ...calls: readonly (Operation | Operation[])[]
): SiteSnapshot {
  return calls.reduce<SiteSnapshot>((before, call) => decided(before, call).after, snapshot)
}

export interface Decided {
  readonly decision: Decision
  readonly after: SiteSnapshot
}

/** The same with what was answered. */
export function decided(snapshot: SiteSnapshot, call: Operation | Operation[]): Decided {
  const operations = Array.isArray(call) ? call : [call]
  expect(operationProblems(snapshot, operations)).toEqual([])
  const decision = decide(snapshot, operations)
  const { changes, reasons } = decision
  if (!changes) throw new Error(`refused: ${reasons.map(({ message }) => message).join(' ')}`)
  const after = snapshotAfter(snapshot, changes)
  expect(brokenInvariants(after)).toEqual([])
  return { decision, after }
}

/** Why it is refused, by code, the most weighty first. @throws Error when it is not */
export function refusalOf(snapshot: SiteSnapshot, call: Operation | Operation[]): string[] {
  const operations = Array.isArray(call) ? call : [call]
  expect(operationProblems(snapshot, operations)).toEqual([])
  const { changes, reasons } = decide(snapshot, operations, { withoutAlternatives: true })
  if (changes) throw new Error('it is not refused')
  return reasons.map(({ code }) => code)
}

/** `booking('rehearsal')`, as it stands. */
export function bookingIn(snapshot: SiteSnapshot, name: string): Booking {
  const booking = snapshot.bookings.find(({ id }) => id === `booking_${name}`)
  if (!booking) throw new Error(`there is no ${name}`)
  return booking
}

/** `turn('rehearsal')`, or `turn('rehearsal-home')` for the one that puts the room back after it; dropped ones too. */
export function turnIn(snapshot: SiteSnapshot, name: string): Turn {
  const turn = snapshot.turns.find(({ id }) => id === `turn_${name}`)
  if (!turn) throw new Error(`${name} has no turn`)
  return turn
}

/** @throws Error when it has none */
export function planIn(snapshot: SiteSnapshot, name: string): Plan {
  const { plan } = turnIn(snapshot, name)
  if (!plan) throw new Error(`the turn of ${name} has no plan`)
  return plan
}
