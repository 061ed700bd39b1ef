import { describe, expect, test } from 'vitest'
import { CAUTION } from '../../src/api/caution.ts'
import { FindingCode } from '../../src/domain/finding.ts'
import { aService } from './a-service.ts'
import { aSite } from './a-site.ts'

interface FindingShown {
  readonly code: FindingCode
  readonly weight: 'missing' | 'odd' | 'note'
  readonly about: { readonly kind: string; readonly id: string; readonly name: string }
  readonly message: string
  readonly fix: string
  readonly field: string | null
}

describe('the check of a set-up', () => {
  test('lists what is missing or odd, what matters most first, with its fix, the time and the caution', async () => {
    const service = await aService()
    const { path, southRoomId } = await aSite(service)
    const { body } = await service.get(`${path}/check`).expect(200)
    expect(Object.keys(body)).toEqual(['items', 'counts', 'checkedAt', 'caution'])
    expect(body.checkedAt).toBe('2026-11-23T09:00:00-06:00')
    expect(body.caution).toBe(CAUTION)
    expect(body.items).toContainEqual({
      code: 'room-no-layouts',
      weight: 'missing',
      about: { kind: 'room', id: southRoomId, name: 'South End' },
      message: 'South End has no layout, so it cannot be booked',
      fix: 'add the layouts it is used in, or take the room out of use',
      field: null,
    })
    const items: FindingShown[] = body.items
    const ranks = items.map(({ code }) => FindingCode.options.indexOf(code))
    expect(ranks).toEqual([...ranks].sort((a, b) => a - b))
    for (const weight of ['missing', 'odd', 'note'] as const) {
      expect(body.counts[weight]).toBe(items.filter((item) => item.weight === weight).length)
    }
  })

  test('calls people by their names', async () => {
    const service = await aService()
    const { path, personId } = await aSite(service)
    const items: FindingShown[] = (await service.get(`${path}/check`).expect(200)).body.items
    expect(items.find(({ code }) => code === 'person-on-no-shift')).toMatchObject({
      about: { kind: 'person', id: personId, name: 'Ottoline Reed' },
      message: 'Ottoline Reed is on no shift, so no plan counts on them',
    })
  })

  test('no longer brings up what has been put right', async () => {
    const service = await aService()
    const { path, personId } = await aSite(service)
    const codes = async () => {
      const items: FindingShown[] = (await service.get(`${path}/check`).expect(200)).body.items
      return items.map(({ code }) => code)
    }
    expect(await codes()).toContain('person-on-no-shift')
    await service
      .post(`${path}/shifts`, {
        name: 'Ottoline',
        crew: { kind: 'person', personId },
        times: {
          kind: 'weekly',
          weekdays: [1, 2, 3],
          startsLocal: '09:00',
          endsLocal: '17:00',
          firstDate: '2026-01-01',
        },
      })
      .expect(201)
    expect(await codes()).not.toContain('person-on-no-shift')
  })

  test('looks at closures that are still to come', async () => {
    const service = await aService()
    const { path, upperId } = await aSite(service)
    const exit = await service
      .post(`${path}/exits`, { name: 'Upper door', sectionId: upperId, clearWidthMetres: 1.2 })
      .expect(201)
    await service
      .post(`${path}/closures`, {
        sectionIds: [],
        exitIds: [exit.body.id],
        fromAt: '2027-03-01T08:00',
        toAt: '2027-03-02T08:00',
        reason: 'new frame',
      })
      .expect(201)
    const items: FindingShown[] = (await service.get(`${path}/check`).expect(200)).body.items
    expect(items.find(({ code }) => code === 'exits-all-closed')).toMatchObject({
      about: { kind: 'closure', name: 'new frame' },
      message:
        'the only exit of Upper Room is closed from Mon 1 Mar 08:00 to Tue 2 Mar 08:00, and the room is not',
    })
  })

  test('names the first booking for which there will be too few pieces, once it is booked', async () => {
    const service = await aService()
    const { path, hallId, banquetId, tableId } = await aSite(service)
    const found = async () => {
      const items: FindingShown[] = (await service.get(`${path}/check`).expect(200)).body.items
      return items.find(({ about }) => about.kind === 'furnishing' && about.id === tableId)
    }
    expect(await found()).toBeUndefined()
    await service
      .post(`${path}/stock-changes`, {
        of: { kind: 'furnishing', furnishingId: tableId, count: 5 },
        why: 'lent-out',
        fromAt: '2026-12-05T00:00',
        toAt: '2026-12-06T00:00',
      })
      .expect(201)
    expect(await found()).toMatchObject({
      code: 'stock-away-short',
      weight: 'odd',
      message:
        '5 round tables of 15 are away from Sat 5 Dec 00:00 to Sun 6 Dec 00:00, which leaves 10, and layout Banquet of 15 asks 15',
    })
    await service
      .post(`${path}/bookings`, {
        title: 'Harvest supper',
        roomId: hallId,
        layoutId: banquetId,
        headcount: 100,
        startsAt: '2026-12-05T18:00',
        endsAt: '2026-12-05T21:00',
      })
      .expect(201)
    expect(await found()).toMatchObject({
      code: 'stock-away-booked',
      weight: 'missing',
      message: expect.stringMatching(/layout Banquet of 15 asks 15 for “Harvest supper” \(doors Sat 5 Dec /),
    })
  })

  test('is made for sites that exist only', async () => {
    const service = await aService()
    await service.get('/v1/sites/site_nowhere/check').expect(404)
  })
})
