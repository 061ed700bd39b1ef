/**
 * Turns drawn at random around the golden ones (docs/golden-turns.md): the work of games to banquet by its parts, each part
 * half to one and a half times as much, in 20 to 80 tasks, for 2 to 12 hands of whom some come later or go earlier, with up
 * to four skills, one to four of each trolley and tool, a doorway, quiet for sound checks, floors that dry by themselves.
 * The figures are those of the worked sheets; the spread is common practice, no source. Frozen: figures are compared
 * over time, so what a seed gives must never change.
 */

import {
  type Activity,
  type Lane,
  type Mode,
  TICK_SECONDS,
  type TurnInstance,
} from '../../src/scheduler/turn/index.ts'
import { seededRandom } from '../../src/scheduler/turn/seeded-random.ts'

/** Work of a part in person-seconds of the crew, in the whole room. */
const parts = [
  {
    name: 'chairs-out',
    personSeconds: 1500,
    handsLeast: 1,
    handsMost: 4,
    tool: 'chair-trolley',
    isNoisy: true,
  },
  {
    name: 'tables-out',
    personSeconds: 1800,
    handsLeast: 2,
    handsMost: 4,
    tool: 'table-trolley',
    isNoisy: true,
  },
  { name: 'clean', personSeconds: 1550, handsLeast: 1, handsMost: 2, tool: 'mop', isNoisy: true },
  { name: 'dry', personSeconds: 0, handsLeast: 0, handsMost: 0, tool: null, isNoisy: false },
  { name: 'mark-out', personSeconds: 388, handsLeast: 1, handsMost: 2, tool: null, isNoisy: false },
  {
    name: 'tables-in',
    personSeconds: 3368,
    handsLeast: 2,
    handsMost: 4,
    tool: 'table-trolley',
    isNoisy: true,
  },
  { name: 'cloths', personSeconds: 1296, handsLeast: 1, handsMost: 3, tool: null, isNoisy: false },
  {
    name: 'chairs-in',
    personSeconds: 2902,
    handsLeast: 1,
    handsMost: 4,
    tool: 'chair-trolley',
    isNoisy: true,
  },
] as const

const DRY_SECONDS = 1200
/** Effective hands of 1 to 4. */
const EFFECTIVE = [0, 1, 2, 2.85, 3.7]
const WHOLE = 1000

export function randomTurn(seed: number): TurnInstance {
  const random = seededRandom(seed)
  const between = (least: number, most: number) => least + Math.floor(random() * (most - least + 1))
  const spread = () => 0.5 + random()
  const ticks = (seconds: number) => Math.max(1, Math.ceil(seconds / TICK_SECONDS))

  const laneCount = between(2, 12)
  const skillCount = between(0, 4)
  const zones = between(1, 4)
  const taskCount = between(20, 80)
  const isDried = random() < 0.4
  const tools = [
    { key: 'chair-trolley', amount: between(1, 4) },
    { key: 'table-trolley', amount: between(1, 4) },
    { key: 'mop', amount: between(1, 4) },
    { key: 'doorway', amount: WHOLE },
    { key: 'quiet', amount: WHOLE },
  ]
  const resourceOf = (key: string) => tools.findIndex((tool) => tool.key === key)

  const activities: Activity[] = []
  const add = (key: string, after: readonly number[], modes: readonly Mode[], group: number): number => {
    activities.push({ key, turn: 0, place: 0, after, modes, group })
    return activities.length - 1
  }
  const fixed = (seconds: number, hands: number, skillMask = 0, uses: Mode['uses'] = []): Mode => ({
    durationTicks: ticks(seconds),
    hands: hands === 0 ? [] : [{ count: hands, skillMask }],
    uses,
  })

  const briefing = add('briefing', [], [fixed(300 * spread(), 1)], 0)
  const walkthrough = add('walkthrough', [briefing], [fixed(300 * spread(), 1), fixed(180 * spread(), 2)], 1)
  const bins = add('bins', [walkthrough], [fixed(311 * spread(), 1)], 2)
  const inUse = parts.filter(({ name }) => name !== 'dry' || isDried)
  // So many lots of each part in each zone as make about so many tasks.
  const devices = between(0, 3) + skillCount
  const left = Math.max(inUse.length * zones, taskCount - 4 - 2 * devices)
  const lots = Math.max(1, Math.round(left / (zones * inUse.length)))
  const ends: number[] = [bins]
  let roomWork = 0
  for (let zone = 0; zone < zones; zone++) {
    let before: readonly number[] = [walkthrough]
    for (const [place, part] of inUse.entries()) {
      const own: number[] = []
      const count = part.name === 'dry' ? 1 : lots
      const doorway = between(60, 400)
      for (let lot = 0; lot < count; lot++) {
        const work = (part.personSeconds * spread()) / (zones * count)
        roomWork += work
        const uses = (hands: number): Mode['uses'] => [
          ...(part.tool === null
            ? []
            : [{ resource: resourceOf(part.tool), amount: part.tool === 'mop' ? hands : 1 }]),
          ...(part.tool?.endsWith('trolley') ? [{ resource: resourceOf('doorway'), amount: doorway }] : []),
          ...(part.isNoisy ? [{ resource: resourceOf('quiet'), amount: 1 }] : []),
        ]
        const modes: Mode[] = []
        for (let hands = part.handsLeast; hands <= part.handsMost; hands++) {
          if (hands === 0) modes.push(fixed(DRY_SECONDS * spread(), 0))
          else if (part.tool !== 'mop' || hands <= tools[resourceOf('mop')]!.amount)
            modes.push({ ...fixed(work / EFFECTIVE[hands]!, hands), uses: uses(hands) })
        }
        own.push(add(`${part.name}/${zone}/${lot}`, before, modes, 10 + place))
      }
      before = own
    }
    ends.push(...before)
  }
  const checks: number[] = []
  for (let device = 0; device < devices; device++) {
    const skillMask = device < skillCount ? 1 << device : 0
    const on = add(`switch/${device}`, [walkthrough], [fixed(120 * spread(), 1, skillMask)], 30 + device)
    if (device % 2 === 0) checks.push(add(`warm-up/${device}`, [on], [fixed(300 * spread(), 0)], 30 + device))
    else {
      const uses = [{ resource: resourceOf('quiet'), amount: WHOLE }]
      checks.push(
        add(`check/${device}`, [on, ...ends], [fixed(300 * spread(), 1, skillMask, uses)], 30 + device),
      )
    }
  }
  add('sign-off', [...ends, ...checks], [fixed(600 * spread(), 1), fixed(360 * spread(), 2)], 3)

  const fixedSeconds = 300 + 300 + 600
  const shared = laneCount <= 2 ? laneCount : laneCount * 0.85
  const dueTick = ticks(
    (roomWork / shared + fixedSeconds + (isDried ? DRY_SECONDS : 0)) * (1.05 + 0.55 * random()),
  )
  const changes = random() < 0.4
  const lanes = Array.from({ length: laneCount }, (_, index): Lane => {
    const own = index < skillCount ? 1 << index : 0
    let skillMask = own
    for (let skill = 0; skill < skillCount; skill++) if (random() < 0.25) skillMask |= 1 << skill
    const comes = changes && index >= 2 && index >= skillCount && random() < 0.5 ? between(10, 90) : 0
    const goes =
      changes && index >= 2 && index >= skillCount && random() < 0.3 ? between(100, 200) : dueTick + 2880
    return { key: `hand ${index + 1}`, skillMask, available: [{ from: comes, to: goes }], busy: [] }
  })
  // Skills that fewer hands than skills can bear lie with the first of them.
  const [first] = lanes
  if (first && skillCount > laneCount) lanes[0] = { ...first, skillMask: (1 << skillCount) - 1 }
  return {
    turns: [{ releaseTick: 0, dueTick, weight: 1 }],
    activities,
    resources: tools.map(({ key, amount }) => ({ key, capacity: [{ fromTick: 0, amount }] })),
    lanes,
    walkTicks: [[0]],
    horizonTick: dueTick + 2880,
  }
}
