import { describe, expect, test } from 'vitest'
import type { EquipmentSetting, LevelControl } from '../../../src/domain/equipment.ts'
import {
  homeSetting,
  levelProblem,
  sameSetting,
  settingText,
} from '../../../src/scheduler/network/equipment-setting.ts'
import { houseLights, screen } from './a-network-input.ts'

/** Lowest stable level 10 %: common practice, no source. */
const dimmer: LevelControl = {
  kind: 'level',
  lowestPercent: 10,
  highestPercent: 100,
  canBeOff: true,
  homeSetting: { kind: 'off' },
  setSeconds: 10,
  hands: 1,
  skill: null,
}
const level = (levelPercent: number): EquipmentSetting => ({ kind: 'level', levelPercent })

describe('a dimmer that is off or holds 10 to 100 %', () => {
  test('is told what it can be when it is asked for 3 %', () => {
    expect(levelProblem(dimmer, level(3))).toBe('3 % cannot be held: this device can be off or 10 to 100 %')
  })

  test('can go from off to 10 %, and not to 5 %', () => {
    expect(levelProblem(dimmer, level(10))).toBeNull()
    expect(levelProblem(dimmer, level(5))).toBe('5 % cannot be held: this device can be off or 10 to 100 %')
  })

  test('can be off, and at 100 %', () => {
    expect(levelProblem(dimmer, { kind: 'off' })).toBeNull()
    expect(levelProblem(dimmer, level(100))).toBeNull()
  })

  test('cannot be just under its lowest level', () => {
    expect(levelProblem(dimmer, level(9.99))).toMatch(/^9\.99 % cannot be held/)
  })

  test('has no named states', () => {
    expect(levelProblem(dimmer, { kind: 'state', state: 'bright' })).toBe(
      'bright is a named state: this device can be off or 10 to 100 %',
    )
  })
})

describe('a device that cannot be off', () => {
  test('is told so, with what it can be', () => {
    expect(levelProblem({ ...dimmer, canBeOff: false }, { kind: 'off' })).toBe(
      'off cannot be held: this device can be 10 to 100 %',
    )
  })
})

describe('a device with an upper limit', () => {
  test('cannot be above it', () => {
    expect(levelProblem({ ...dimmer, highestPercent: 80 }, level(81))).toBe(
      '81 % cannot be held: this device can be off or 10 to 80 %',
    )
  })

  test('that holds one level only is on at that level, or off', () => {
    expect(levelProblem({ ...dimmer, lowestPercent: 100 }, level(50))).toBe(
      '50 % cannot be held: this device can be off or 100 %',
    )
  })
})

describe('a setting', () => {
  test('is home where the device says so', () => {
    expect(homeSetting(screen)).toEqual({ kind: 'state', state: 'up' })
    expect(homeSetting(houseLights)).toEqual(level(100))
  })

  test('is the same only with the same kind and the same value', () => {
    const settings: EquipmentSetting[] = [
      { kind: 'off' },
      level(10),
      level(20),
      { kind: 'state', state: 'off' },
      { kind: 'state', state: 'up' },
    ]
    for (const [i, a] of settings.entries()) {
      for (const [j, b] of settings.entries()) expect(sameSetting(a, { ...b })).toBe(i === j)
    }
  })

  test('is said as people say it', () => {
    expect(
      [{ kind: 'off' } as const, level(30), { kind: 'state', state: 'live' } as const].map(settingText),
    ).toEqual(['off', '30 %', 'live'])
  })
})
