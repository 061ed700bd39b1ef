/** Rooms held for a while, and bookings that stand or fall together. */
import { describe, expect, test } from 'vitest'
import { BookingId, LinkId } from '../../../src/domain/ids.ts'
import type { Operation } from '../../../src/domain/operation.ts'
import type { SiteSnapshot } from '../../../src/domain/snapshot.ts'
import { decide, operationProblems } from '../../../src/scheduler/decide/index.ts'
import { aBooking, aHall, aShift, at, book, hold, setUp } from './a-hall.ts'
import { bookingIn, carriedOut, decided, planIn, refusalOf, turnIn } from './carried-out.ts'

const id = (name: string) => BookingId.parse(`booking_${name}`)
const confirm = (name: string, versionExpected: number | null = null): Operation => ({
  kind: 'confirm',
  bookingId: id(name),
  versionExpected,
})
const lapse = (name: string): Operation => ({ kind: 'lapse', bookingId: id(name) })
const cancel = (name: string): Operation => ({ kind: 'cancel', bookingId: id(name), versionExpected: null })
const linkId = LinkId.parse('link_wedding')
const link = (names: readonly string[], keepAsSet = false): Operation => ({
  kind: 'link',
  linkId,
  bookingIds: names.map(id),
  keepAsSet,
})
const unlink: Operation = { kind: 'unlink', linkId }
const asOf = (snapshot: SiteSnapshot, now: string): SiteSnapshot => ({ ...snapshot, now: at(now) })
const codesOf = (snapshot: SiteSnapshot, operation: Operation) =>
  operationProblems(snapshot, [operation]).map(({ code }) => code)
const statuses = (snapshot: SiteSnapshot) => snapshot.bookings.map(({ status }) => status)

const supper = {
  name: 'supper',
  layout: 'side-supper',
  doors: '2026-06-05T18:00',
  clear: '2026-06-05T21:00',
}
const held = { ...supper, until: '2026-06-03T12:00' }

describe('a hold', () => {
  test('is turned for and planned exactly like a firm booking', () => {
    const firm = carriedOut(aHall(), book(supper))
    const tentative = carriedOut(aHall(), hold(held))
    expect(turnIn(tentative, 'supper')).toEqual(turnIn(firm, 'supper'))
    expect(planIn(tentative, 'supper').tasks.length).toBeGreaterThan(10)
    expect(bookingIn(tentative, 'supper')).toMatchObject({
      status: 'TENTATIVE',
      holdExpiresAt: at('2026-06-03T12:00'),
    })
  })

  test('is refused for the same reasons as a firm booking', () => {
    expect(refusalOf(aHall(), hold({ ...held, headcount: 61 }))).toContain('headcount-over-posted-limit')
  })

  test('keeps others out of its room until it is given up, also after its time', () => {
    const snapshot = carriedOut(aHall(), hold(held))
    const other = book({ ...supper, name: 'other', layout: 'side-meeting' })
    expect(refusalOf(snapshot, other)).toEqual(['room-occupied'])
    const over = asOf(snapshot, '2026-06-03T12:00')
    expect(refusalOf(over, other)).toEqual(['room-occupied'])
    const free = carriedOut(over, lapse('supper'), other)
    expect(bookingIn(free, 'supper').status).toBe('CANCELLED')
    expect(turnIn(free, 'supper')).toMatchObject({ status: 'dropped', plan: null })
    expect(bookingIn(free, 'other').status).toBe('CONFIRMED')
  })

  test('keeps the hands of its plan from others', () => {
    // Two hands for one hour, and each of the rooms needs them for more than half of it.
    const hall = aHall({
      shifts: [aShift('morning', 2, '2026-06-05T09:00', '2026-06-05T09:35')],
      slackWantedSeconds: 0,
    })
    const times = { doors: '2026-06-05T10:00', clear: '2026-06-05T11:00' }
    const side = { name: 'side', layout: 'side-meeting', ...times, until: '2026-06-03T12:00' }
    const south = book({ name: 'south', layout: 'south-meeting', ...times })
    expect(decide(hall, [south]).verdict).toBe('fits')
    const snapshot = carriedOut(hall, hold(side))
    expect(refusalOf(snapshot, south)).not.toContain('room-occupied')
    carriedOut(asOf(snapshot, '2026-06-03T12:00'), lapse('side'), south)
  })

  test('must end in the future', () => {
    const snapshot = asOf(aHall(), '2026-06-03T12:00')
    expect(operationProblems(snapshot, [hold(held)])).toEqual([
      { code: 'wrong-order', at: '/hold/expiresAt', message: 'a hold must end in the future' },
    ])
  })

  test('is not given up before its time, and a firm booking never', () => {
    const snapshot = carriedOut(aHall(), hold(held))
    const early = { code: 'not-a-hold', at: '', message: 'supper is no hold that is over' }
    expect(operationProblems(asOf(snapshot, '2026-06-03T11:59'), [lapse('supper')])).toEqual([early])
    expect(operationProblems(asOf(snapshot, '2026-06-03T12:00'), [lapse('supper')])).toEqual([])
    const firm = carriedOut(snapshot, confirm('supper'))
    expect(operationProblems(asOf(firm, '2026-06-03T12:00'), [lapse('supper')])).toEqual([early])
  })

  test('is not lost by lapsing twice', () => {
    const gone = carriedOut(asOf(carriedOut(aHall(), hold(held)), '2026-06-03T12:00'), lapse('supper'))
    expect(codesOf(gone, lapse('supper'))).toEqual(['not-a-hold'])
  })

  test('can be moved like any booking, and stays a hold', () => {
    const moved = aBooking({
      ...supper,
      doors: '2026-06-05T17:00',
      version: 2,
      terms: { status: 'TENTATIVE', holdExpiresAt: at('2026-06-03T12:00') },
    })
    const snapshot = carriedOut(aHall(), hold(held), { kind: 'change', booking: moved })
    expect(bookingIn(snapshot, 'supper')).toMatchObject({ status: 'TENTATIVE', version: 2 })
    expect(turnIn(snapshot, 'supper').dueAt).toBe(at('2026-06-05T17:00'))
  })
})

describe('to confirm a hold', () => {
  test('makes it firm, with the plan that people have read', () => {
    const snapshot = carriedOut(aHall(), hold(held))
    const { decision, after } = decided(snapshot, confirm('supper', 1))
    expect(decision).toMatchObject({ verdict: 'fits', before: { turnId: 'turn_supper', verdict: 'fits' } })
    expect(decision.changes?.turns).toEqual([])
    expect(bookingIn(after, 'supper')).toEqual({
      ...bookingIn(snapshot, 'supper'),
      status: 'CONFIRMED',
      holdExpiresAt: null,
      version: 2,
    })
  })

  test('is too late once its time is over', () => {
    const over = asOf(carriedOut(aHall(), hold(held)), '2026-06-03T12:00')
    expect(operationProblems(over, [confirm('supper')])).toEqual([
      {
        code: 'hold-is-over',
        at: '',
        message: 'the hold was over at Wed 3 Jun 12:00; ask for the time anew',
      },
    ])
  })

  test('is not for a firm booking, nor for one that was changed since, nor for one that is gone', () => {
    const snapshot = carriedOut(aHall(), hold(held))
    expect(codesOf(snapshot, confirm('supper', 2))).toEqual(['version-mismatch'])
    expect(codesOf(snapshot, confirm('nobody'))).toEqual(['unknown-id'])
    expect(codesOf(carriedOut(snapshot, confirm('supper')), confirm('supper'))).toEqual(['not-a-hold'])
    expect(codesOf(carriedOut(snapshot, cancel('supper')), confirm('supper'))).toEqual(['unknown-id'])
  })

  test('is refused when it cannot be turned any more: the crew was sent home meanwhile', () => {
    const snapshot = carriedOut(aHall(), hold(held))
    const [shift] = snapshot.shifts
    const nobody = carriedOut(snapshot, setUp({ kind: 'shift', before: shift!, after: shift!, retire: true }))
    expect(turnIn(nobody, 'supper').status).toBe('failing')
    expect(refusalOf(nobody, confirm('supper'))).toEqual(['hands-short'])
  })
})

describe('bookings that are linked', () => {
  /** A rehearsal the day before, and the wedding. */
  const rehearsal = {
    name: 'rehearsal',
    layout: 'long-worship',
    doors: '2026-06-05T16:00',
    clear: '2026-06-05T18:00',
  }
  const wedding = {
    name: 'wedding',
    layout: 'long-worship',
    doors: '2026-06-06T10:00',
    clear: '2026-06-06T12:00',
  }
  const until = '2026-06-03T12:00'
  const bothHeld = () =>
    carriedOut(
      aHall(),
      hold({ ...rehearsal, until }),
      hold({ ...wedding, until: '2026-06-03T18:00' }),
      link(['rehearsal', 'wedding']),
    )
  const bothFirm = (keepAsSet = false) =>
    carriedOut(aHall(), book(rehearsal), book(wedding), link(['rehearsal', 'wedding'], keepAsSet))

  test('are all confirmed with one of them, which is answered first', () => {
    const { decision, after } = decided(bothHeld(), confirm('wedding'))
    expect(statuses(after)).toEqual(['CONFIRMED', 'CONFIRMED'])
    expect(after.bookings.map(({ holdExpiresAt }) => holdExpiresAt)).toEqual([null, null])
    expect(decision.changes?.bookings.map((change) => change.after.id)).toEqual([
      'booking_wedding',
      'booking_rehearsal',
    ])
    expect(decision.before?.turnId).toBe('turn_wedding')
  })

  test('are not confirmed when the time of any of them is over', () => {
    const over = asOf(bothHeld(), '2026-06-03T13:00')
    expect(codesOf(over, confirm('rehearsal'))).toEqual(['hold-is-over'])
    expect(codesOf(over, confirm('wedding'))).toEqual(['hold-is-over'])
  })

  test('all fall when the hold of one is over', () => {
    const gone = carriedOut(asOf(bothHeld(), until), lapse('rehearsal'))
    expect(statuses(gone)).toEqual(['CANCELLED', 'CANCELLED'])
    expect(gone.turns.map(({ status }) => status)).toEqual(['dropped', 'dropped'])
  })

  test('all fall when one is cancelled, each with its turn; the one named is answered first', () => {
    const { decision, after } = decided(bothFirm(), cancel('wedding'))
    expect(statuses(after)).toEqual(['CANCELLED', 'CANCELLED'])
    expect(after.turns.map(({ status, plan }) => ({ status, plan }))).toEqual([
      { status: 'dropped', plan: null },
      { status: 'dropped', plan: null },
    ])
    expect(decision.changes?.bookings[0]?.after.id).toBe('booking_wedding')
  })

  test('count up their version once for each call', () => {
    const linked = bothFirm(true)
    expect(linked.bookings.map(({ version }) => version)).toEqual([2, 2])
    expect(carriedOut(linked, cancel('wedding')).bookings.map(({ version }) => version)).toEqual([3, 3])
  })

  test('must all be holds, or all be firm', () => {
    const mixed = carriedOut(aHall(), hold({ ...rehearsal, until }), book(wedding))
    expect(operationProblems(mixed, [link(['rehearsal', 'wedding'])])).toEqual([
      {
        code: 'keeps-no-set',
        at: '/bookingIds',
        message: 'holds and firm bookings cannot stand or fall together; confirm the holds first',
      },
    ])
  })

  test('must be there, each once', () => {
    const snapshot = carriedOut(aHall(), book(rehearsal), book(wedding))
    const problem = (names: readonly string[]) =>
      operationProblems(snapshot, [link(names)]).map(({ code, at: where }) => [code, where])
    expect(problem(['rehearsal', 'reception'])).toEqual([['unknown-id', '/bookingIds/1']])
    expect(problem(['rehearsal', 'wedding', 'rehearsal'])).toEqual([['wrong-order', '/bookingIds/2']])
    const gone = carriedOut(snapshot, cancel('wedding'))
    expect(codesOf(gone, link(['rehearsal', 'wedding']))).toEqual(['unknown-id'])
  })

  test('stand each by itself again when the link is undone', () => {
    const apart = carriedOut(bothFirm(true), unlink)
    for (const booking of apart.bookings)
      expect(booking).toMatchObject({ linkId: null, keepAsSet: false, keptUntilAt: null })
    expect(statuses(carriedOut(apart, cancel('wedding')))).toEqual(['CONFIRMED', 'CANCELLED'])
    expect(codesOf(apart, unlink)).toEqual(['not-linked'])
  })

  test('leave the link that they had for a new one; who is left keeps no room for those who left', () => {
    const reception = {
      name: 'reception',
      layout: 'long-worship',
      doors: '2026-06-06T18:00',
      clear: '2026-06-06T21:00',
    }
    const again = LinkId.parse('link_again')
    const linked = carriedOut(bothFirm(true), book(reception), {
      kind: 'link',
      linkId: again,
      bookingIds: [id('wedding'), id('reception')],
      keepAsSet: true,
    })
    expect(bookingIn(linked, 'rehearsal').keptUntilAt).toBeNull()
    expect(bookingIn(linked, 'wedding')).toMatchObject({
      linkId: again,
      keptUntilAt: at('2026-06-06T18:00'),
    })
    expect(statuses(carriedOut(linked, cancel('wedding')))).toEqual(['CONFIRMED', 'CANCELLED', 'CANCELLED'])
  })

  describe('that keep the room as set', () => {
    const between = {
      name: 'between',
      layout: 'long-games',
      doors: '2026-06-05T19:00',
      clear: '2026-06-05T21:00',
    }

    test('keep everybody else out of it between them, whole or in part', () => {
      const kept = bothFirm(true)
      expect(bookingIn(kept, 'rehearsal').keptUntilAt).toBe(at('2026-06-06T10:00'))
      expect(bookingIn(kept, 'wedding').keptUntilAt).toBeNull()
      const { reasons } = decide(kept, [book(between)])
      expect(reasons.map(({ message }) => message)).toEqual([
        'Long Room is taken from Fri 5 Jun 16:00 to Sat 6 Jun 10:00 by “rehearsal”.',
      ])
      expect(refusalOf(kept, book({ ...between, layout: 'south-meeting' }))).toEqual(['room-occupied'])
      carriedOut(kept, book({ ...between, layout: 'side-meeting' }))
    })

    test('do not keep it before the first and after the last of them', () => {
      const kept = bothFirm(true)
      carriedOut(
        kept,
        book({ ...between, name: 'early', doors: '2026-06-05T08:00', clear: '2026-06-05T12:00' }),
      )
      carriedOut(
        kept,
        book({ ...between, name: 'late', doors: '2026-06-06T15:00', clear: '2026-06-06T17:00' }),
      )
    })

    test('have only to be cleaned up after between them: nothing is struck, nothing is set', () => {
      const { tasks } = planIn(bothFirm(true), 'wedding')
      const kinds = tasks.map(({ kind }) => kind)
      expect(kinds).toEqual(expect.arrayContaining(['clean', 'sign-off']))
      for (const kind of ['strike', 'park', 'set', 'linen-on']) expect(kinds).not.toContain(kind)
      expect(turnIn(bothFirm(true), 'wedding')).toMatchObject({
        fromLayoutIds: ['layout_long-worship'],
        releaseAt: at('2026-06-05T18:00'),
      })
    })

    test('cannot keep it when somebody is there already between them', () => {
      const snapshot = carriedOut(aHall(), book(rehearsal), book(wedding), book(between))
      expect(refusalOf(snapshot, link(['rehearsal', 'wedding'], true))).toContain('room-occupied')
      carriedOut(snapshot, link(['rehearsal', 'wedding']))
    })

    test('let others in again when the link is undone', () => {
      carriedOut(bothFirm(true), unlink, book(between))
    })

    test('let others in again when they are cancelled', () => {
      carriedOut(bothFirm(true), cancel('rehearsal'), book(between))
    })

    test('must be in one room with one layout, one after the other', () => {
      const elsewhere = carriedOut(aHall(), book(rehearsal), book({ ...wedding, layout: 'side-meeting' }))
      const otherwise = carriedOut(aHall(), book(rehearsal), book({ ...wedding, layout: 'long-games' }))
      for (const snapshot of [elsewhere, otherwise]) {
        expect(operationProblems(snapshot, [link(['rehearsal', 'wedding'], true)])).toEqual([
          {
            code: 'keeps-no-set',
            at: '/keepAsSet',
            message: 'to keep a room as set, all of them must be in one room with one layout',
          },
        ])
        expect(operationProblems(snapshot, [link(['rehearsal', 'wedding'])])).toEqual([])
      }
    })

    test('keep it until the new doors when the second is moved', () => {
      const later = aBooking({
        ...wedding,
        doors: '2026-06-06T14:00',
        clear: '2026-06-06T16:00',
        version: 3,
        terms: { linkId, keepAsSet: true },
      })
      const moved = carriedOut(bothFirm(true), { kind: 'change', booking: later })
      expect(bookingIn(moved, 'rehearsal').keptUntilAt).toBe(at('2026-06-06T14:00'))
    })

    test('are not moved apart over somebody who has the room then', () => {
      const next = { ...between, name: 'next', doors: '2026-06-06T15:00', clear: '2026-06-06T17:00' }
      const snapshot = carriedOut(bothFirm(true), book(next))
      const beyond = aBooking({
        ...wedding,
        doors: '2026-06-06T20:00',
        clear: '2026-06-06T22:00',
        version: 3,
        terms: { linkId, keepAsSet: true },
      })
      expect(refusalOf(snapshot, { kind: 'change', booking: beyond })).toContain('room-occupied')
    })

    test('keep it no longer for one that goes to another room', () => {
      const away = aBooking({
        ...wedding,
        layout: 'side-meeting',
        version: 3,
        terms: { linkId, keepAsSet: true },
      })
      const moved = carriedOut(bothFirm(true), { kind: 'change', booking: away })
      expect(bookingIn(moved, 'rehearsal').keptUntilAt).toBeNull()
      carriedOut(moved, book(between))
    })
  })
})
