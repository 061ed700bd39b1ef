import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { StatesControl, Transition } from '../../../src/domain/equipment.ts'
import { equipmentPath, reachableStates } from '../../../src/scheduler/network/equipment-path.ts'

const step = (from: string, to: string, seconds: number): Transition => ({
  from,
  to,
  seconds,
  hands: 1,
  skill: null,
  needsFloorClear: false,
  needsQuiet: false,
  needsDark: false,
  needsWallOpen: false,
  needsGuestsOut: true,
})

const device = (states: readonly string[], transitions: readonly Transition[]): StatesControl => ({
  kind: 'states',
  states: [...states],
  homeState: states[0]!,
  transitions: [...transitions],
})

const route = (path: readonly Transition[] | null) => path?.map(({ from, to }) => `${from}>${to}`)

describe('the way from one state of a device to another', () => {
  test('is the quickest, though it may have more steps', () => {
    const projector = device(
      ['off', 'warm', 'on'],
      [step('off', 'on', 300), step('off', 'warm', 60), step('warm', 'on', 90)],
    )
    expect(route(equipmentPath(projector, 'off', 'on'))).toEqual(['off>warm', 'warm>on'])
  })

  test('has no steps when the device is there already', () => {
    expect(equipmentPath(device(['up', 'down'], []), 'up', 'up')).toEqual([])
  })

  test('goes only in the direction of a transition', () => {
    const oneWay = device(['up', 'down'], [step('up', 'down', 40)])
    expect(equipmentPath(oneWay, 'down', 'up')).toBeNull()
  })

  test('does not exist from or to a state the device does not have', () => {
    const screen = device(['up', 'down'], [step('up', 'down', 40)])
    expect(equipmentPath(screen, 'up', 'sideways')).toBeNull()
    expect(equipmentPath(screen, 'sideways', 'sideways')).toBeNull()
  })

  test('has fewer steps where two are equally quick, then is the one listed first', () => {
    const states = ['a', 'b', 'c', 'd']
    const twoOrOne = device(states, [step('a', 'b', 10), step('b', 'd', 10), step('a', 'd', 20)])
    expect(route(equipmentPath(twoOrOne, 'a', 'd'))).toEqual(['a>d'])
    const twoAlike = device(states, [
      step('a', 'c', 10),
      step('a', 'b', 10),
      step('c', 'd', 10),
      step('b', 'd', 10),
    ])
    expect(route(equipmentPath(twoAlike, 'a', 'd'))).toEqual(['a>b', 'b>d'])
    const quickWithSkill = { ...step('a', 'd', 5), skill: 'sound' }
    expect(equipmentPath(device(states, [quickWithSkill, step('a', 'd', 5)]), 'a', 'd')).toEqual([
      quickWithSkill,
    ])
  })

  test('leads to every state that can be reached, and to no other', () => {
    const chain = device(
      ['a', 'b', 'c', 'island'],
      [step('a', 'b', 1), step('b', 'c', 1), step('island', 'a', 1)],
    )
    expect(reachableStates(chain, 'a')).toEqual(['a', 'b', 'c'])
    expect(reachableStates(chain, 'island')).toEqual(['a', 'b', 'c', 'island'])
    expect(reachableStates(chain, 'nowhere')).toEqual([])
  })

  test('is as short as trying every way finds, in any small device', () => {
    const states = ['a', 'b', 'c', 'd', 'e']
    const anyTransition = fc.record({
      from: fc.constantFrom(...states),
      to: fc.constantFrom(...states),
      seconds: fc.integer({ min: 0, max: 50 }),
    })
    fc.assert(
      fc.property(fc.array(anyTransition, { maxLength: 12 }), (edges) => {
        const control = device(
          states,
          edges.map(({ from, to, seconds }) => step(from, to, seconds)),
        )
        const path = equipmentPath(control, 'a', 'e')
        const best = leastSecondsByTryingAll(control, 'a', 'e', [])
        expect(path === null ? null : path.reduce((sum, { seconds }) => sum + seconds, 0)).toBe(best)
        let at = 'a'
        for (const transition of path ?? []) {
          expect(transition.from).toBe(at)
          at = transition.to
        }
        if (path !== null) expect(at).toBe('e')
      }),
      { seed: 20261125, numRuns: 300 },
    )
  })
})

function leastSecondsByTryingAll(
  control: StatesControl,
  from: string,
  to: string,
  visited: readonly string[],
): number | null {
  if (from === to) return 0
  let least: number | null = null
  for (const transition of control.transitions) {
    if (transition.from !== from || visited.includes(transition.to)) continue
    const rest = leastSecondsByTryingAll(control, transition.to, to, [...visited, from])
    if (rest !== null && (least === null || transition.seconds + rest < least))
      least = transition.seconds + rest
  }
  return least
}
