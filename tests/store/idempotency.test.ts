import { describe, expect, test } from 'vitest'
import { Conflict } from '../../src/store/store.ts'
import { aBooking, actorId, anAnswer, aStore, at, booked, siteId } from './a-world.ts'

const { route, key } = anAnswer()

describe('an answer kept under a key', () => {
  test('is written together with its effect, and answered again', async () => {
    const store = await aStore()
    expect(await store.answerFor(actorId, route, key)).toBeNull()
    await store.commit(booked([aBooking('dinner')], { answer: anAnswer() }))
    expect(await store.answerFor(actorId, route, key)).toEqual(anAnswer())
  })

  test('is not there when its effect was refused', async () => {
    const store = await aStore()
    const both = [aBooking('first'), aBooking('second', { doors: 1 })]
    await expect(store.commit(booked(both, { answer: anAnswer() }))).rejects.toThrow(Conflict)
    expect(await store.answerFor(actorId, route, key)).toBeNull()
  })

  test('keeps a second effect under the same key from being written', async () => {
    const store = await aStore()
    await store.commit(booked([aBooking('first')], { answer: anAnswer() }))
    const second = aBooking('second', { doors: 20 })
    const again = booked([second], { planningVersionExpected: 2, answer: anAnswer({ body: '{}' }) })
    await expect(store.commit(again)).rejects.toThrow(Conflict)
    expect(await store.booking(siteId, second.id)).toBeNull()
    expect(await store.answerFor(actorId, route, key)).toEqual(anAnswer())
  })

  test('is told apart by who asked, by route and by key', async () => {
    const store = await aStore()
    await store.keepAnswer(anAnswer({ status: 409 }), at(0))
    expect(await store.answerFor(actorId, 'POST /v1/sites', key)).toBeNull()
    expect(await store.answerFor(actorId, route, 'key-2')).toBeNull()
    expect((await store.answerFor(actorId, route, key))?.status).toBe(409)
  })

  test('that wrote nothing is kept too, and the first one stays', async () => {
    const store = await aStore()
    await store.keepAnswer(anAnswer({ status: 409 }), at(0))
    await store.keepAnswer(anAnswer({ status: 201 }), at(1))
    expect((await store.answerFor(actorId, route, key))?.status).toBe(409)
    expect(await store.planningVersion(siteId)).toBe(1)
  })
})
