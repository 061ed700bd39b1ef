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

  test('fall without those that have taken place: what these left standing is still there', () => {
    const dance = { ...supper, name: 'dance', layout: 'long-games', doors: '2026-06-06T18:00' }
    const booked = carriedOut(bothFirm(true), book({ ...dance, clear: '2026-06-06T21:00' }))
    const after = carriedOut(asOf(booked, '2026-06-05T16:00'), cancel('wedding'))
    expect(statuses(after)).toEqual(['CONFIRMED', 'CANCELLED', 'CONFIRMED'])
    expect(bookingIn(after, 'rehearsal').keptUntilAt).toBeNull()
    expect(turnIn(after, 'dance').fromLayoutIds).toEqual(['layout_long-worship'])
  })

  test('count up their version once for each call', () => {
    const linked = bothFirm(true)
    expect(linked.bookings.map(({ version }) => version)).toEqual([2, 2])
    expect(carriedOut(linked, cancel('wedding')).bookings.map(({ version }) => version)).toEqual([3, 3])
  })

  test('must all be holds, or all be firm: what is held must be confirmed first', () => {
    const reception = { ...supper, doors: '2026-06-06T18:00', clear: '2026-06-06T21:00' }
    const mixed = carriedOut(
      aHall(),
      hold({ ...rehearsal, until }),
      book(wedding),
      hold({ ...reception, until }),
    )
    expect(operationProblems(mixed, [link(['wedding', 'rehearsal'])])).toEqual([
      {
        code: 'keeps-no-set',
        at: '/bookingIds',
        message:
          '“rehearsal” is only a hold: if it lapsed, the firm ones would fall with it; ' +
          'confirm the hold first, then link them',
      },
    ])
    expect(operationProblems(mixed, [link(['rehearsal', 'wedding', 'supper'], true)])).toEqual([
      {
        code: 'keeps-no-set',
        at: '/bookingIds',
        message:
          '“rehearsal” and “supper” are only holds: if they lapsed, the firm ones would fall with them; ' +
          'confirm the holds first, then link them',
      },
    ])
    carriedOut(mixed, confirm('rehearsal'), confirm('supper'), link(['rehearsal', 'wedding', 'supper']))
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
        'Long Room is taken from Fri 5 Jun 16:00 to Fri 5 Jun 18:00 by “rehearsal”, and kept as set until Sat 6 Jun 10:00.',
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

    test('cannot keep it when somebody is there already between them, who is named', () => {
      const snapshot = carriedOut(aHall(), book(rehearsal), book(wedding), book(between))
      const { changes, reasons } = decide(snapshot, [link(['rehearsal', 'wedding'], true)])
      expect(changes).toBeNull()
      expect(reasons.map(({ message }) => message)).toEqual([
        'Long Room is taken from Fri 5 Jun 19:00 to Fri 5 Jun 21:00 by “between”.',
      ])
      carriedOut(snapshot, link(['rehearsal', 'wedding']))
    })

    test('let others in again when the link is undone', () => {
      carriedOut(bothFirm(true), unlink, book(between))
    })

    test('let others in again when they are cancelled', () => {
      carriedOut(bothFirm(true), cancel('rehearsal'), book(between))
    })

    test('must have it to keep: two of them in the same room with the same layout', () => {
      const elsewhere = carriedOut(aHall(), book(rehearsal), book({ ...wedding, layout: 'side-meeting' }))
      const otherwise = carriedOut(aHall(), book(rehearsal), book({ ...wedding, layout: 'long-games' }))
      for (const snapshot of [elsewhere, otherwise]) {
        expect(operationProblems(snapshot, [link(['rehearsal', 'wedding'], true)])).toEqual([
          {
            code: 'keeps-no-set',
            at: '/keepAsSet',
            message:
              'there is nothing to keep as set: no two of them follow one another in the same room with the same ' +
              'layout; give two of them one room and one layout, or link them without keepAsSet',
          },
        ])
        expect(operationProblems(snapshot, [link(['rehearsal', 'wedding'])])).toEqual([])
      }
    })

    test('keep it for 31 days at most', () => {
      const july = (doors: string, clear: string) => {
        const one = { ...wedding, name: 'july', doors: `2026-07-06T${doors}`, clear: `2026-07-06T${clear}` }
        const shifts = [
          aShift('june', 4, '2026-06-05T08:00', '2026-06-05T23:00'),
          aShift('july', 4, '2026-07-06T08:00', '2026-07-06T23:00'),
        ]
        return carriedOut(aHall({ shifts }), book(rehearsal), book(one))
      }
      const both = link(['rehearsal', 'july'], true)
      expect(operationProblems(july('16:05', '18:00'), [both])).toEqual([
        {
          code: 'keeps-no-set',
          at: '/keepAsSet',
          message:
            'a room is kept as set for 31 days at most, and “july” comes later than that after “rehearsal”; ' +
            'link them without keepAsSet',
        },
      ])
      const kept = carriedOut(july('16:00', '18:00'), both)
      expect(bookingIn(kept, 'rehearsal').keptUntilAt).toBe(at('2026-07-06T16:00'))
      const later = { ...wedding, name: 'july', doors: '2026-07-06T16:05', clear: '2026-07-06T18:00' }
      const moved = aBooking({ ...later, version: 3, terms: { linkId, keepAsSet: true } })
      const beyond = carriedOut(kept, { kind: 'change', booking: moved })
      expect(bookingIn(beyond, 'rehearsal').keptUntilAt).toBeNull()
    })

    test('keep it no more once somebody has begun to put it back', () => {
      const snapshot = carriedOut(
        aHall({ homeLayouts: { long: 'games' }, policy: { returnHomeAfterSeconds: 4 * 3600 } }),
        book({ ...rehearsal, doors: '2026-06-05T09:00', clear: '2026-06-05T12:00' }),
        book(wedding),
      )
      const both = link(['rehearsal', 'wedding'], true)
      const before = carriedOut(asOf(snapshot, '2026-06-05T11:55'), both)
      expect(turnIn(before, 'rehearsal-home').status).toBe('dropped')
      expect(turnIn(before, 'wedding').fromLayoutIds).toEqual(['layout_long-worship'])
      const begun = asOf(snapshot, '2026-06-05T12:05')
      expect(operationProblems(begun, [both])).toEqual([
        {
          code: 'keeps-no-set',
          at: '/keepAsSet',
          message:
            'there is nothing to keep as set: putting the room back after “rehearsal” has begun; link them without keepAsSet',
        },
      ])
      const third = { ...wedding, name: 'third', doors: '2026-06-06T16:00', clear: '2026-06-06T18:00' }
      const linked = carriedOut(begun, book(third), link(['rehearsal', 'wedding', 'third'], true))
      expect(bookingIn(linked, 'rehearsal').keptUntilAt).toBeNull()
      expect(bookingIn(linked, 'wedding').keptUntilAt).toBe(at('2026-06-06T16:00'))
      expect(turnIn(linked, 'wedding').fromLayoutIds).toEqual(['layout_long-games'])
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

  describe('in several rooms that keep rooms as set', () => {
    const reception = {
      name: 'reception',
      layout: 'side-supper',
      doors: '2026-06-05T20:00',
      clear: '2026-06-05T23:00',
    }
    const all = ['rehearsal', 'wedding', 'reception']
    const between = { name: 'between', doors: '2026-06-05T19:00', clear: '2026-06-05T21:00' }
    const evening = { name: 'dance', doors: '2026-06-06T18:00', clear: '2026-06-06T21:00' }
    /** Rehearsal and wedding in the long room, and between them by time the reception in the side room. */
    const linked = () =>
      carriedOut(
        aHall({
          homeLayouts: { long: 'games', side: 'meeting' },
          policy: { returnHomeAfterSeconds: 4 * 3600 },
        }),
        book(rehearsal),
        book(wedding),
        book(reception),
        link(all, true),
      )
    const keptIn = (snapshot: SiteSnapshot) =>
      snapshot.bookings.flatMap(({ title, keptUntilAt }) => (keptUntilAt === null ? [] : [title]))

    test('keep each where two follow one another in it with the same layout; the others are just linked', () => {
      const snapshot = linked()
      expect(keptIn(snapshot)).toEqual(['rehearsal'])
      expect(bookingIn(snapshot, 'rehearsal').keptUntilAt).toBe(at('2026-06-06T10:00'))
      expect(snapshot.bookings.map((one) => [one.linkId, one.keepAsSet])).toEqual(
        all.map(() => [linkId, true]),
      )
      expect(statuses(carriedOut(snapshot, cancel('reception')))).toEqual(all.map(() => 'CANCELLED'))
    })

    test('are turned for where nothing is kept, and there only', () => {
      const snapshot = linked()
      const kinds = (name: string) => planIn(snapshot, name).tasks.map(({ kind }) => kind)
      for (const kind of ['strike', 'park', 'set'] as const) expect(kinds('wedding')).not.toContain(kind)
      expect(kinds('reception')).toContain('set')
      const standing = snapshot.turns.filter(({ status }) => status !== 'dropped').map(({ id }) => id)
      // The hall waits as it is set for the wedding; the side room and, after the wedding, the hall go home.
      expect(standing.filter((id) => id.endsWith('-home')).sort()).toEqual([
        'turn_reception-home',
        'turn_wedding-home',
      ])
    })

    test('leave to others what they do not keep', () => {
      expect(refusalOf(linked(), book({ ...between, layout: 'long-worship' }))).toEqual(['room-occupied'])
      const away = { ...evening, layout: 'side-meeting' }
      carriedOut(linked(), book(away))
    })

    test('keep nothing between two in one room with different layouts, and the rest all the same', () => {
      const onSaturday = (name: string, layout: string, doors: string, clear: string) =>
        book({ name, layout, doors: `2026-06-06T${doors}`, clear: `2026-06-06T${clear}` })
      const snapshot = carriedOut(
        linked(),
        onSaturday('dance', 'long-games', '15:00', '17:00'),
        onSaturday('late', 'long-games', '18:00', '19:00'),
        onSaturday('service', 'long-worship', '21:30', '22:30'),
        link(['service', 'late', 'dance', ...all], true),
      )
      expect(keptIn(snapshot)).toEqual(['rehearsal', 'dance'])
      expect(bookingIn(snapshot, 'dance').keptUntilAt).toBe(at('2026-06-06T18:00'))
    })

    test('do not keep a room of which they use a part themselves in between', () => {
      const lunch = { ...between, name: 'lunch', layout: 'south-meeting' }
      const snapshot = carriedOut(aHall(), book(rehearsal), book(wedding), book(lunch))
      const members = ['rehearsal', 'lunch', 'wedding']
      expect(codesOf(snapshot, link(members, true))).toEqual(['keeps-no-set'])
      expect(refusalOf(snapshot, link(['rehearsal', 'wedding'], true))).toEqual(['room-occupied'])
      const again = { ...evening, name: 'again', layout: 'long-worship' }
      expect(keptIn(carriedOut(snapshot, book(again), link([...members, 'again'], true)))).toEqual([
        'wedding',
      ])
    })

    test('keep a room from when one of them is moved to where the next one is', () => {
      const here = aBooking({
        ...reception,
        layout: 'long-worship',
        version: 3,
        doors: '2026-06-06T18:00',
        clear: '2026-06-06T21:00',
        terms: { linkId, keepAsSet: true },
      })
      const change: Operation = { kind: 'change', booking: here }
      const moved = carriedOut(linked(), change)
      expect(keptIn(moved).sort()).toEqual(['rehearsal', 'wedding'])
      const other = { ...between, name: 'other', doors: '2026-06-06T14:00', clear: '2026-06-06T16:00' }
      const taken = carriedOut(linked(), book({ ...other, layout: 'long-games' }))
      expect(refusalOf(taken, change)).toContain('room-occupied')
    })

    test('keep a room for nobody when the next one goes elsewhere, nor past its own layout', () => {
      const other = aBooking({
        ...wedding,
        layout: 'long-games',
        version: 3,
        terms: { linkId, keepAsSet: true },
      })
      const snapshot = carriedOut(linked(), { kind: 'change', booking: other })
      expect(keptIn(snapshot)).toEqual([])
      expect(bookingIn(snapshot, 'rehearsal')).toMatchObject({ linkId, keepAsSet: true })
    })
  })
})
