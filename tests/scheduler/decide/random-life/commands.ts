/**
 * What happens, as commands on a model: the model knows what each call makes of the status and the links of bookings, and
 * nothing of turns, crew or windows.
 */
import type fc from 'fast-check'
import { expect } from 'vitest'
import type { Booking } from '../../../../src/domain/booking.ts'
import type { Operation } from '../../../../src/domain/operation.ts'
import type { SiteSnapshot } from '../../../../src/domain/snapshot.ts'
import { callOf, type Place } from './call-of.ts'
import type { Happening } from './happening.ts'
import { type LivedOptions, lived, type Outcome } from './lived.ts'

type Standing = Pick<Booking, 'status' | 'linkId' | 'holdExpiresAt' | 'doorsAt'>

const isLive = ({ status }: Standing): boolean => status !== 'CANCELLED'

/** What must have become of the bookings. */
export interface Model {
  readonly bookings: Map<string, Standing>
  /** So many commands were carried out: what is new is named by it. */
  count: number
}

/** The hall as it stands. */
export interface Hall {
  readonly place: Omit<Place, 'name'>
  readonly options: LivedOptions
  readonly outcomes: Map<Outcome, number>
  snapshot: SiteSnapshot
}

export const commandOf = (happening: Happening): fc.Command<Model, Hall> => ({
  check: ({ bookings }) => canHappen(happening, [...bookings.values()].filter(isLive)),
  run: (model, hall) => {
    model.count += 1
    const place = { ...hall.place, name: `n${model.count}` }
    const call = callOf(hall.snapshot, happening, place)
    const { snapshot, outcome } = lived(hall.snapshot, happening, place, hall.options)
    hall.snapshot = snapshot
    hall.outcomes.set(outcome, (hall.outcomes.get(outcome) ?? 0) + 1)
    if (outcome === 'later') lapse(model, snapshot.now)
    if (outcome === 'taken' && call?.kind === 'ask')
      for (const one of call.operations) become(model, one, snapshot.now)
    expect(standingIn(snapshot)).toEqual(withoutEnds(model))
  },
  toString: () => JSON.stringify(happening),
})

/** Of what nobody could do there is no use in asking. */
function canHappen({ what }: Happening, live: readonly Standing[]): boolean {
  switch (what) {
    case 'confirm':
      return live.some(({ status }) => status === 'TENTATIVE')
    case 'unlink':
      return live.some(({ linkId }) => linkId !== null)
    case 'book-again':
    case 'move':
    case 'move-place':
    case 'move-terms':
    case 'cancel':
    case 'clear-later':
    case 'polish':
      return live.length > 0
    case 'swap':
    case 'link':
      return live.length > 1
    default:
      return true
  }
}

function become({ bookings }: Model, operation: Operation, now: number): void {
  const put = (id: string, changed: Partial<Standing>) => {
    const known = bookings.get(id)
    if (known) bookings.set(id, { ...known, ...changed })
  }
  const withLink = (id: string) => together(bookings, id)
  switch (operation.kind) {
    case 'book':
    case 'hold':
    case 'change': {
      const { id, status, linkId, holdExpiresAt, doorsAt } = operation.booking
      bookings.set(id, { status, linkId, holdExpiresAt, doorsAt })
      break
    }
    case 'confirm':
      for (const id of withLink(operation.bookingId)) put(id, { status: 'CONFIRMED', holdExpiresAt: null })
      break
    case 'cancel':
      for (const id of withLink(operation.bookingId)) {
        // What has taken place stays.
        const known = bookings.get(id)
        if (known && (known.status === 'TENTATIVE' || known.doorsAt > now)) put(id, { status: 'CANCELLED' })
      }
      break
    case 'link':
      for (const id of operation.bookingIds) put(id, { linkId: operation.linkId })
      break
    case 'unlink':
      for (const [id, one] of bookings)
        if (one.linkId === operation.linkId && isLive(one)) put(id, { linkId: null })
      break
    default:
  }
}

/** Holds whose time is over are given up, the one that ran out first in front, each with its link. */
function lapse({ bookings }: Model, now: number): void {
  for (const [id, { status, holdExpiresAt }] of bookings) {
    if (status !== 'TENTATIVE' || holdExpiresAt === null || holdExpiresAt > now) continue
    for (const fallen of together(bookings, id)) {
      const known = bookings.get(fallen)
      if (known) bookings.set(fallen, { ...known, status: 'CANCELLED' })
    }
  }
}

/** Itself, and all that stand or fall with it. */
function together(bookings: ReadonlyMap<string, Standing>, id: string): string[] {
  const linkId = bookings.get(id)?.linkId ?? null
  const others = [...bookings].filter(([, one]) => linkId !== null && one.linkId === linkId && isLive(one))
  return [id, ...others.map(([other]) => other)]
}

const standingIn = ({ bookings }: SiteSnapshot): Map<string, object> =>
  new Map(bookings.map(({ id, status, linkId }) => [id, { status, linkId }]))

const withoutEnds = ({ bookings }: Model): Map<string, object> =>
  new Map([...bookings].map(([id, { status, linkId }]) => [id, { status, linkId }]))
