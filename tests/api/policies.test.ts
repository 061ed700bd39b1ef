import { describe, expect, test } from 'vitest'
import { aService, idOf, type Service } from './a-service.ts'
import { type ASite, aSite, aWeeklyShift } from './a-site.ts'

const add = (service: Service, site: ASite, policy: object) => service.post(`${site.path}/policies`, policy)

describe('how turns are planned is said in the policy', () => {
  test('at first nobody is assumed, nothing is capped, and every turn is done at once', async () => {
    const service = await aService()
    const site = await aSite(service)
    const [inForce] = (await service.get(`${site.path}/policies`).expect(200)).body.items
    expect(inForce).toMatchObject({
      planningHands: 0,
      paidPersonSecondsMost: null,
      justInTimeFromGapSeconds: null,
      returnHomeAfterSeconds: null,
      replanTurnsMost: 24,
    })
  })

  test('what is named takes its place, the rest stays, and null puts it back', async () => {
    const service = await aService()
    const site = await aSite(service)
    const wanted = {
      planningHands: 2,
      paidPersonSecondsMost: 36_000,
      justInTimeFromGapSeconds: 86_400,
      returnHomeAfterSeconds: 172_800,
      replanTurnsMost: 6,
    }
    const first = idOf(await add(service, site, wanted))
    expect((await service.get(`${site.path}/policies/${first}`)).body).toMatchObject(wanted)
    const second = idOf(await add(service, site, { paidPersonSecondsMost: null }))
    expect((await service.get(`${site.path}/policies/${second}`)).body).toMatchObject({
      ...wanted,
      paidPersonSecondsMost: null,
    })
  })

  test.for([
    ['planningHands', 13, 'must be at most 12'],
    ['planningHands', null, 'must be a whole number'],
    ['paidPersonSecondsMost', -1, 'must be 0 or more'],
    ['justInTimeFromGapSeconds', 2_592_001, 'must be at most 2592000'],
    ['returnHomeAfterSeconds', 'never', 'must be a whole number'],
    ['replanTurnsMost', 25, 'must be at most 24'],
  ] as const)('%s is not %s', async ([name, value, message]) => {
    const service = await aService()
    const site = await aSite(service)
    const answer = await add(service, site, { [name]: value }).expect(422)
    expect(answer.body.errors).toEqual([{ at: `/${name}`, in: 'body', message }])
  })
})

describe('a shift', () => {
  test('is paid where that is said, and not otherwise', async () => {
    const service = await aService()
    const site = await aSite(service)
    const unpaid = await service.post(`${site.path}/shifts`, aWeeklyShift(1)).expect(201)
    expect(unpaid.body.paid).toBe(false)
    const paid = await service.post(`${site.path}/shifts`, { ...aWeeklyShift(2), paid: true }).expect(201)
    expect(paid.body.paid).toBe(true)
    const path = `${site.path}/shifts/${paid.body.id}`
    const renamed = await service.patch(path, { name: 'Hired crew' }).set('If-Match', '"1"').expect(200)
    expect(renamed.body).toMatchObject({ name: 'Hired crew', paid: true })
    const ours = await service.patch(path, { paid: false }).set('If-Match', '"2"').expect(200)
    expect(ours.body.paid).toBe(false)
    const answer = await service.patch(path, { paid: 'yes' }).set('If-Match', '"3"').expect(422)
    expect(answer.body.errors).toEqual([{ at: '/paid', in: 'body', message: 'must be true or false' }])
  })
})
