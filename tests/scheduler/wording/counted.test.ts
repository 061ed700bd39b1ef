import { expect, test } from 'vitest'
import { counted } from '../../../src/scheduler/wording/counted.ts'

test('one hand is a hand, none and several are hands', () => {
  expect([0, 1, 3].map((hands) => counted(hands, 'hand'))).toEqual(['0 hands', '1 hand', '3 hands'])
})

test('a word that does not take an s says how it goes for several', () => {
  expect([1, 2].map((people) => counted(people, 'person', 'people'))).toEqual(['1 person', '2 people'])
})

test('a number may be written in a way of its own', () => {
  expect(counted(1200, 'guest', undefined, (count) => count.toLocaleString('en-US'))).toBe('1,200 guests')
})
