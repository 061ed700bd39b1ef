/** A line-up a little different from one that went well, drawn by chance; the same chance gives the same line-up. */
import { crewOf, giveTo, type LineUp, type LineUpGround } from './line-up.ts'

type Random = () => number
type Variation = (ground: LineUpGround, lineUp: LineUp, random: Random) => boolean

/**
 * Changes the line-up in place. @returns false: this time nothing came of it, and it may be half changed
 */
export function vary(ground: LineUpGround, lineUp: LineUp, random: Random): boolean {
  const kind = random()
  const found = variations.find(([share]) => kind < share)?.[1] ?? lanesSwapped
  return found(ground, lineUp, random)
}

/** One activity goes to who does another one, right behind or before that. */
const joined: Variation = (ground, lineUp, random) => {
  const { worked, members, groups } = ground
  const activity = oneOf(worked, random)
  const like = oneOf(random() < 0.7 ? members.get(groups[activity]!)! : worked, random)
  if (like === activity) return false
  if (!giveTo(ground, lineUp, activity, [...crewOf(ground, lineUp, like)])) return false
  if (random() < 0.7) moveBeside(lineUp.list, [activity], like, random() < 0.3)
  return true
}

/** All of a group, or all of it in one zone, or what comes first or last of it, goes to one crew. */
const groupGiven: Variation = (ground, lineUp, random) => {
  const { worked, members, groups, zones } = ground
  const model = oneOf(worked, random)
  const crew = [...crewOf(ground, lineUp, random() < 0.5 ? model : oneOf(worked, random))]
  const all = members.get(groups[model]!)!
  const inOrder = all.length === 1 ? all : [...lineUp.list].filter((one) => all.includes(one))
  const place = inOrder.indexOf(model)
  const kind = random()
  const given =
    kind < 0.3
      ? inOrder
      : kind < 0.6
        ? inOrder.filter((one) => zones[one] === zones[model])
        : kind < 0.8
          ? inOrder.slice(place)
          : inOrder.slice(0, place + 1)
  let isGiven = false
  for (const activity of given) if (giveTo(ground, lineUp, activity, crew)) isGiven = true
  return isGiven
}

/** What a crew does in one go goes to another crew that does such work, next to what that does of it. */
const stintGiven: Variation = (ground, lineUp, random) => {
  const { worked, members, groups } = ground
  const model = oneOf(worked, random)
  const lane = oneOf([...crewOf(ground, lineUp, model)], random)
  const group = groups[model]!
  const own = [...lineUp.list].filter((one) => crewOf(ground, lineUp, one).includes(lane))
  let from = own.indexOf(model)
  let to = from + 1
  while (from > 0 && groups[own[from - 1]!] === group) from -= 1
  while (to < own.length && groups[own[to]!] === group) to += 1
  const stint = own.slice(from, to)
  const others = members.get(group)!.filter((one) => !stint.includes(one))
  const like = others.length > 0 && random() < 0.8 ? oneOf(others, random) : oneOf(worked, random)
  const crew = [...crewOf(ground, lineUp, like)]
  let isGiven = false
  for (const activity of stint) if (giveTo(ground, lineUp, activity, crew)) isGiven = true
  if (isGiven && random() < 0.6) moveBeside(lineUp.list, stint, like, random() < 0.5)
  return isGiven
}

/** One activity, or all of its group, comes right before or behind another one. */
const moved: Variation = ({ worked, members, groups }, lineUp, random) => {
  const activity = oneOf(worked, random)
  const to = oneOf(worked, random)
  const which = random() < 0.7 ? [activity] : members.get(groups[activity]!)!
  moveBeside(lineUp.list, which, to, random() < 0.5)
  return true
}

/** Two lanes swap all that they do between two places in the list. */
const lanesSwapped: Variation = ({ problem, slotMasks }, { list, modes, lanes }, random) => {
  if (problem.laneCount < 2 || list.length === 0) return false
  const a = Math.floor(random() * problem.laneCount)
  const b = Math.floor(random() * problem.laneCount)
  if (a === b) return false
  const from = Math.floor(random() * list.length)
  const to = random() < 0.5 ? list.length : from + 1 + Math.floor(random() * (list.length - from))
  let isSwapped = false
  for (let at = from; at < to; at++) {
    const mode = modes[list[at]!]!
    const first = problem.slotFirst[list[at]!]!
    const slots = lanes.subarray(first, first + problem.modeHands[mode]!)
    const slotA = slots.indexOf(a)
    const slotB = slots.indexOf(b)
    if (slotA >= 0 === slotB >= 0) continue
    const slot = Math.max(slotA, slotB)
    const by = slotA >= 0 ? b : a
    const mask = slotMasks[mode]![slot]!
    if ((problem.laneMask[by]! & mask) !== mask) return false
    slots[slot] = by
    isSwapped = true
  }
  return isSwapped
}

/** Two activities swap who does them. */
const crewsSwapped: Variation = (ground, lineUp, random) => {
  const one = oneOf(ground.worked, random)
  const other = oneOf(ground.worked, random)
  const crew = [...crewOf(ground, lineUp, one)]
  const otherCrew = [...crewOf(ground, lineUp, other)]
  return one !== other && giveTo(ground, lineUp, one, otherCrew) && giveTo(ground, lineUp, other, crew)
}

/** One hand, or two, come to an activity or leave it. */
const handsChanged: Variation = (ground, lineUp, random) => {
  const activity = oneOf(ground.worked, random)
  const crew = [...crewOf(ground, lineUp, activity)]
  const more = [1, 2, -1, -2][Math.floor(random() * 4)]!
  if (more < 0) return crew.length + more > 0 && giveTo(ground, lineUp, activity, crew.slice(0, more))
  const beside = crewOf(ground, lineUp, oneOf(ground.worked, random))
  for (const lane of beside) if (crew.length > 0 && !crew.includes(lane)) crew.push(lane)
  return giveTo(ground, lineUp, activity, crew)
}

/** A crew that does two activities one after the other parts: one half does the one, the other half the other. */
const crewHalved: Variation = (ground, lineUp, random) => {
  const activity = oneOf(ground.worked, random)
  const crew = [...crewOf(ground, lineUp, activity)]
  const half = crew.length >> 1
  if (half === 0) return false
  const place = lineUp.list.indexOf(activity)
  const next = lineUp.list.find(
    (one, at) => at > place && crewOf(ground, lineUp, one).some((lane) => crew.includes(lane)),
  )
  if (next === undefined) return false
  return (
    giveTo(ground, lineUp, activity, crew.slice(0, half)) && giveTo(ground, lineUp, next, crew.slice(half))
  )
}

/** Up to which draw which of them is taken; the last one takes the rest. */
const variations: readonly (readonly [number, Variation])[] = [
  [0.25, joined],
  [0.4, stintGiven],
  [0.5, groupGiven],
  [0.7, moved],
  [0.8, crewsSwapped],
  [0.86, handsChanged],
  [0.9, crewHalved],
  [1, lanesSwapped],
]

const oneOf = <Item>(list: readonly Item[], random: Random): Item => list[Math.floor(random() * list.length)]!

/** Those named come right before or behind another one, in their own order. */
function moveBeside(list: Int32Array, activities: readonly number[], to: number, isBefore: boolean): void {
  if (activities.length === 1) {
    moveOne(list, list.indexOf(activities[0]!), list.indexOf(to), isBefore)
    return
  }
  const rest: number[] = []
  const going: number[] = []
  for (const one of list) (one !== to && activities.includes(one) ? going : rest).push(one)
  rest.splice(rest.indexOf(to) + (isBefore ? 0 : 1), 0, ...going)
  list.set(rest)
}

function moveOne(list: Int32Array, from: number, to: number, isBefore: boolean): void {
  const activity = list[from]!
  const target = to > from ? to - (isBefore ? 1 : 0) : to + (isBefore || to === from ? 0 : 1)
  if (target > from) list.copyWithin(from, from + 1, target + 1)
  else list.copyWithin(target + 1, target, from)
  list[target] = activity
}
