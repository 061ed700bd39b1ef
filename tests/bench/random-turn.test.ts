import { createHash } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { randomTurn } from '../../bench/turns/random-turn.ts'
import { instanceProblems } from '../../src/scheduler/turn/instance-problems.ts'

describe('the turns that speed is measured on', () => {
  test('are the same as ever', () => {
    const hash = createHash('sha256')
    for (let seed = 1; seed <= 20; seed++) hash.update(JSON.stringify(randomTurn(seed)))
    expect(hash.digest('hex')).toBe('1105b9bee61102a6dd95f249defe0812b908bdd83f873324aa4cda2a54994ef9')
  })

  test('are well formed', () => {
    for (let seed = 1; seed <= 500; seed++) expect(instanceProblems(randomTurn(seed))).toEqual([])
  })
})
