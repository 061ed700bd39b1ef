/** The document with its keys made into indices. */
import type { Activity, Lane, Mode, TurnInstance } from '../scheduler/turn/index.ts'
import { InputFault } from './input-fault.ts'
import type { InstanceDocument } from './instance-document.ts'

type ActivityDocument = InstanceDocument['activities'][number]
type LaneDocument = InstanceDocument['lanes'][number]

/** Bits 0 to 30 of a mask. */
const SKILLS_MOST = 31

/** Where each thing of the document stands among its kind. @throws InputFault when it is not there */
type IndexOf = (key: string, where: string) => number

interface Indices {
  readonly turn: IndexOf
  readonly place: IndexOf
  readonly activity: IndexOf
  readonly resource: IndexOf
  readonly consumable: IndexOf
  readonly budget: IndexOf
  readonly skillMask: (skills: readonly string[]) => number
}

/** @throws InputFault when a key occurs twice, or something is named that is not there */
export function instanceOfDocument(document: InstanceDocument): TurnInstance {
  const { turns, activities, resources, consumables, budgets, lanes, horizonTick } = document
  const places = document.places ?? { keys: ['here'], walkTicks: [[0]] }
  const indices: Indices = {
    turn: indexOf('turns', keysOf(turns)),
    place: indexOf('places', places.keys),
    activity: indexOf('activities', keysOf(activities)),
    resource: indexOf('resources', keysOf(resources)),
    consumable: indexOf('consumables', keysOf(consumables)),
    budget: indexOf('budgets', keysOf(budgets)),
    skillMask: skillMasks(document),
  }
  indexOf('lanes', keysOf(lanes))
  if (places.walkTicks.length !== places.keys.length)
    throw new InputFault(
      `/places/walkTicks: ${places.walkTicks.length} rows for ${places.keys.length} places.`,
    )
  for (const [from, row] of places.walkTicks.entries()) {
    for (const [to, there] of row.entries()) {
      const back = places.walkTicks[to]?.[from]
      if (from < to && back !== undefined && back !== there)
        throw new InputFault(
          `/places/walkTicks: ${there} from ${places.keys[from]} to ${places.keys[to]} and ${back} back; it must be the same both ways.`,
        )
    }
  }
  return {
    horizonTick,
    // One that is due whenever is due when all must have ended: it cannot be late.
    turns: turns.map(({ releaseTick, dueTick, weight }) => ({
      releaseTick,
      dueTick: dueTick ?? horizonTick,
      weight,
    })),
    activities: activities.map((activity, at) =>
      activityOf(document, indices, activity, `/activities/${at} (${activity.key})`),
    ),
    resources: resources.map(({ key, capacity }) => ({
      key,
      capacity: typeof capacity === 'number' ? [{ fromTick: 0, amount: capacity }] : capacity,
    })),
    consumables,
    budgets,
    lanes: lanes.map((lane, at) => laneOf(indices, lane, `/lanes/${at} (${lane.key})`)),
    walkTicks: places.walkTicks,
  }
}

function activityOf(
  { turns }: InstanceDocument,
  indices: Indices,
  activity: ActivityDocument,
  where: string,
): Activity {
  if (activity.turn === undefined && turns.length > 1)
    throw new InputFault(`${where}: there are ${turns.length} turns, so it must say which is its own.`)
  return {
    key: activity.key,
    turn: activity.turn === undefined ? 0 : indices.turn(activity.turn, `${where}/turn`),
    place: activity.place === undefined ? 0 : indices.place(activity.place, `${where}/place`),
    after: activity.after.map((key) => indices.activity(key, `${where}/after`)),
    modes: activity.modes.map((mode, at) => modeOf(indices, mode, `${where}/modes/${at}`)),
  }
}

function modeOf(indices: Indices, mode: ActivityDocument['modes'][number], where: string): Mode {
  return {
    durationTicks: mode.durationTicks,
    hands: mode.hands.map(({ count, skills }) => ({ count, skillMask: indices.skillMask(skills) })),
    // None of a resource is nothing held: so a milestone may name all of them.
    uses: mode.uses
      .map(({ resource, amount }) => ({ resource: indices.resource(resource, `${where}/uses`), amount }))
      .filter(({ amount }) => amount > 0),
    consumes: mode.consumes.map(({ consumable, amount }) => ({
      consumable: indices.consumable(consumable, `${where}/consumes`),
      amount,
    })),
  }
}

function laneOf(
  indices: Indices,
  { key, skills, available, busy, budget }: LaneDocument,
  where: string,
): Lane {
  return {
    key,
    skillMask: indices.skillMask(skills),
    available: available.map(({ fromTick, toTick }) => ({ from: fromTick, to: toTick })),
    busy: busy.map(({ fromTick, toTick, place }) => ({
      from: fromTick,
      to: toTick,
      place: place === undefined ? 0 : indices.place(place, `${where}/busy`),
    })),
    ...(budget === undefined ? {} : { budget: indices.budget(budget, `${where}/budget`) }),
  }
}

const keysOf = (things: readonly { readonly key: string }[]): string[] => things.map(({ key }) => key)

function indexOf(kind: string, keys: readonly string[]): IndexOf {
  const indices = new Map(keys.map((key, index) => [key, index]))
  const twice = keys.find((key, index) => indices.get(key) !== index)
  if (twice !== undefined) throw new InputFault(`/${kind}: the key ${twice} occurs twice; give each its own.`)
  return (key, where) => {
    const index = indices.get(key)
    if (index === undefined) throw new InputFault(`${where}: there is no ${key} among /${kind}.`)
    return index
  }
}

/** All that somebody has or something asks for: bit k of a mask is the one with index k. */
export function skillNames({ lanes, activities }: InstanceDocument): string[] {
  const known = new Set(lanes.flatMap(({ skills }) => skills))
  for (const { modes } of activities)
    for (const { hands } of modes)
      for (const { skills } of hands) for (const skill of skills) known.add(skill)
  return [...known].sort()
}

/** A bit for each skill, in order of their names. */
function skillMasks(document: InstanceDocument): (skills: readonly string[]) => number {
  const names = skillNames(document)
  if (names.length > SKILLS_MOST)
    throw new InputFault(`There are ${names.length} different skills; ${SKILLS_MOST} can be told apart.`)
  const bits = new Map(names.map((skill, bit) => [skill, 1 << bit]))
  return (skills) => skills.reduce((mask, skill) => mask | bits.get(skill)!, 0)
}
