/** The clear width that people need to get out, also when one exit is lost, and the people that exits serve. */
import { amount, count } from './checked-number.ts'
import type { CodeTables, ExitWidthRule } from './code-tables.ts'
import { peopleByNumberOfExits } from './exits.ts'
import { wholeDown, wholeUp } from './whole-number.ts'

/** Doors, corridors and ramps are level. */
export type ExitComponent = 'level' | 'stairs'

export interface WayOut {
  readonly component: ExitComponent
  readonly sprinklersAndVoiceAlarm: boolean
}

/**
 * The clear width, in millimetres, that so many people need in all: together at several exits where the rule is so
 * much a person; through one exit where the rule is a table of steps. 0 for nobody; the least width of a single exit
 * is not in it (see `widthOfEachExitMillimetres`).
 * @throws RangeError for people that are not a whole number of 0 or more, and for stairs without a figure
 * @source IBC 1005.3; Approved Document B vol 2, Table 2.3
 */
export function exitWidthNeededMillimetres(
  tables: CodeTables,
  input: WayOut & { readonly people: number },
): number {
  const rule = widthRule(tables, input.component)
  return widthForPeople(tables, rule, count('people', input.people), input.sprinklersAndVoiceAlarm)
}

/**
 * The least clear width, in millimetres, of each of so many equal exits with which everything holds: the width in
 * all, what must remain when one is lost, and the least width of one exit. 0 for nobody.
 * @param exits  1 or more; one exit cannot be lost (whether one is enough is `exitsNeeded`)
 * @throws RangeError for a number that is not whole or too small, and for stairs without a figure
 */
export function widthOfEachExitMillimetres(
  tables: CodeTables,
  input: WayOut & { readonly people: number; readonly exits: number },
): number {
  const people = count('people', input.people)
  if (count('exits', input.exits) < 1) throw new RangeError(`exits: expected 1 or more, got ${input.exits}`)
  const rule = widthRule(tables, input.component)
  if (people === 0) return 0
  const { exits, sprinklersAndVoiceAlarm } = input
  if (rule.kind === 'steps') {
    const exitsLeft = exits > 1 && tables.lostExit.kind === 'widest-left-out' ? exits - 1 : exits
    return widthForPeople(tables, rule, Math.ceil(people / exitsLeft), sprinklersAndVoiceAlarm)
  }
  const whole = widthForPeople(tables, rule, people, sprinklersAndVoiceAlarm)
  const withOneLost = exits > 1 ? (whole * tables.lostExit.share) / (exits - 1) : 0
  return Math.max(whole / exits, withOneLost, leastWidthMillimetres(rule, people))
}

/** What an exit must have to count at all, for so many people in the room. */
export function leastWidthMillimetres(rule: ExitWidthRule, people: number): number {
  if (rule.kind === 'steps') return rule.steps[0]!.clearWidthMillimetres
  return people < rule.smallBelowPeople ? rule.leastMillimetresSmall : rule.leastMillimetres
}

export interface ExitOpening {
  /** With the door open, between what stands in the way; 0 or more. */
  readonly clearWidthMillimetres: number
  /** Left out: level. */
  readonly component?: ExitComponent
}

export interface PeopleServed {
  /** The least of the three. */
  readonly people: number
  /** Which of the three it is; of equal ones the width of all together, then what is left without the widest. */
  readonly decidedBy: 'width-together' | 'widest-lost' | 'number-of-exits'
  /** Exits wide enough to count. */
  readonly exitsThatCount: number
  /** null: their number sets no limit. */
  readonly byNumberOfExits: number | null
  readonly byWidth: number
  /**
   * By what must be there once the widest is lost: so many that the share of their width that must remain (IBC: half)
   * remains, or so many that the others serve (Approved Document B). null: with a single exit none can be lost.
   */
  readonly withWidestLost: number | null
}

/**
 * How many people the exits of a room may serve: by their number, by their width, and with the widest one lost.
 * No exit, or none wide enough, serves nobody. One more exit or a wider one never serves fewer.
 * @throws RangeError for a negative or unbounded width, and for stairs without a figure
 * @source IBC 1005.3, 1005.5, 1006.2.1; Approved Document B vol 2, Tables 2.2 and 2.3
 */
export function peopleExitsServe(
  tables: CodeTables,
  input: { readonly exits: readonly ExitOpening[]; readonly sprinklersAndVoiceAlarm: boolean },
): PeopleServed {
  const capacities = input.exits
    .map((exit, index) => {
      const width = amount(`exits[${index}].clearWidthMillimetres`, exit.clearWidthMillimetres)
      return peopleThrough(tables, widthRule(tables, exit.component ?? 'level'), width, input)
    })
    .filter((people) => people > 0)
  const inAll = capacities.reduce((sum, people) => sum + people, 0)
  const left = inAll - Math.max(0, ...capacities)
  const byNumberOfExits = peopleByNumberOfExits(tables, capacities.length)
  const byWidth = wholeDown(inAll)
  const withWidestLost = capacities.length < 2 ? null : wholeDown(left / tables.lostExit.share)
  const [onceLost, allowed] = [withWidestLost ?? byWidth, byNumberOfExits ?? byWidth]
  const people = Math.min(byWidth, onceLost, allowed)
  return {
    people,
    decidedBy:
      people === byWidth ? 'width-together' : people === onceLost ? 'widest-lost' : 'number-of-exits',
    exitsThatCount: capacities.length,
    byNumberOfExits,
    byWidth,
    withWidestLost,
  }
}

/** People through one opening, not rounded where the rule is so much a person: openings are added before rounding. */
function peopleThrough(
  tables: CodeTables,
  rule: ExitWidthRule,
  widthMillimetres: number,
  { sprinklersAndVoiceAlarm }: Pick<WayOut, 'sprinklersAndVoiceAlarm'>,
): number {
  // A micrometre for the last binary digit: 32 in are 32 in.
  const width = widthMillimetres + 1e-3
  if (rule.kind === 'per-person') {
    if (width < rule.leastMillimetresSmall) return 0
    const people = widthMillimetres / millimetresPerPerson(tables, rule, sprinklersAndVoiceAlarm)
    // A stair of less than the full width is good for a small room only.
    return width < rule.leastMillimetres ? Math.min(people, rule.smallBelowPeople - 1) : people
  }
  const step = rule.steps.findLast((row) => width >= row.clearWidthMillimetres)
  if (!step) return 0
  return Math.max(step.peopleAtMost, beyondLastStep(rule, width))
}

function beyondLastStep(rule: Extract<ExitWidthRule, { kind: 'steps' }>, width: number): number {
  const last = rule.steps.at(-1)!
  return width < last.clearWidthMillimetres ? 0 : wholeDown(width / rule.millimetresPerPersonBeyond)
}

function widthForPeople(
  tables: CodeTables,
  rule: ExitWidthRule,
  people: number,
  sprinklersAndVoiceAlarm: boolean,
): number {
  if (people === 0) return 0
  if (rule.kind === 'per-person') return people * millimetresPerPerson(tables, rule, sprinklersAndVoiceAlarm)
  const step = rule.steps.find((row) => people <= row.peopleAtMost)
  return step ? step.clearWidthMillimetres : wholeUp(people * rule.millimetresPerPersonBeyond)
}

function millimetresPerPerson(
  tables: CodeTables,
  rule: Extract<ExitWidthRule, { kind: 'per-person' }>,
  sprinklersAndVoiceAlarm: boolean,
): number {
  return sprinklersAndVoiceAlarm && tables.sprinklerReductionTaken
    ? rule.millimetresPerPersonReduced
    : rule.millimetresPerPerson
}

function widthRule(tables: CodeTables, component: ExitComponent): ExitWidthRule {
  const rule = tables.exitWidth[component]
  if (!rule) throw new RangeError(`component: the ${tables.locale} table has no figure for ${component}`)
  return rule
}
