/** Advice on places for people in wheelchairs, on ways they can use, and on receivers for people who hear badly. */
import { ACCESS_DIMENSIONS } from '../access/access-dimensions.ts'
import { accessibleDiningPlaces } from '../access/dining-surfaces.ts'
import { listeningReceivers } from '../access/listening-receivers.ts'
import { companionSeats, wheelchairSpaces } from '../access/wheelchair-spaces.ts'
import type { Sourced } from '../occupancy/sourced.ts'
import { type AdviceInput, checkAdviceInput, peopleExpected } from './advice-input.ts'
import { type AdviceItem, sourcesOf } from './advice-item.ts'
import { countText, numberText, shownWidth, widthText, widthUnit } from './measure-text.ts'

const STANDARDS = '2010 ADA Standards'

/**
 * What to leave and have ready for access, by the 2010 ADA Standards (United States); elsewhere the same numbers are
 * given as a guide, and say so. The plan does not say which places are kept for whom, so nothing here is found, only
 * asked for. Show `ADVICE_CAUTION` with it.
 * @throws RangeError naming the field that cannot be
 */
export function accessAdvice(input: AdviceInput): AdviceItem[] {
  checkAdviceInput(input)
  const seats = input.seats ?? peopleExpected(input)
  const byStandards = [
    ...spacesAdvice(input, seats),
    ...receiversAdvice(input, seats),
    ...diningAdvice(input, seats),
    ...routeAdvice(input),
  ].map((item) => (input.locale === 'us' ? item : asGuide(item)))
  return [...byStandards, ...stepFreeAdvice(input)]
}

/** No figure of another country is held: the American one is a place to start. */
function asGuide(item: AdviceItem): AdviceItem {
  return {
    ...item,
    text: `${item.text.slice(0, -1)} (the figure of the United States: none of this country is held here).`,
    verdict: 'unknown',
  }
}

const item = (
  code: string,
  text: string,
  required: number | null,
  unit: string,
  ...rows: readonly Sourced[]
): AdviceItem => ({
  topic: 'access',
  code,
  text,
  found: null,
  required,
  unit,
  verdict: required === 0 ? 'ok' : 'unknown',
  ...sourcesOf(rows),
})

const SPACES: Sourced = {
  source: `${STANDARDS} 221.2, written for fixed seats; for loose chairs taken as the least`,
  status: 'common practice, no source',
}
const COMPANIONS: Sourced = { source: `${STANDARDS} 221.3`, status: 'from memory' }

function spacesAdvice({ units }: AdviceInput, seats: number | null): AdviceItem[] {
  if (seats === null) {
    return [
      item(
        'wheelchair-spaces',
        'How many wheelchair spaces to leave depends on the seats, which are not known.',
        null,
        'spaces',
        SPACES,
      ),
    ]
  }
  const spaces = wheelchairSpaces(seats)
  if (spaces === 0) {
    return [
      item(
        'wheelchair-spaces',
        `No wheelchair space is asked for with ${countText(seats, 'seat', 'seats')}; leave one where somebody needs it.`,
        0,
        'spaces',
        SPACES,
      ),
    ]
  }
  const { spaceWidthAlone, spaceWidthBeside, spaceDepthFromFrontOrRear, spaceDepthFromSide } =
    ACCESS_DIMENSIONS
  return [
    item(
      'wheelchair-spaces',
      `Leave ${countText(spaces, 'wheelchair space', 'wheelchair spaces')} among ${countText(seats, 'seat', 'seats')}, off the aisles and ways.`,
      spaces,
      'spaces',
      SPACES,
    ),
    item(
      'companion-seats',
      `Keep ${countText(companionSeats(seats), 'companion seat', 'companion seats')}, one beside each wheelchair space.`,
      companionSeats(seats),
      'seats',
      COMPANIONS,
    ),
    item(
      'wheelchair-space-width',
      `A wheelchair space is ${widthText(spaceWidthAlone.value, units)} wide, or ${widthText(spaceWidthBeside.value, units)} each side by side, and ${widthText(spaceDepthFromFrontOrRear.value, units)} deep, or ${widthText(spaceDepthFromSide.value, units)} if entered from the side.`,
      shownWidth(spaceWidthAlone.value, units),
      widthUnit(units),
      spaceWidthAlone,
      spaceWidthBeside,
      spaceDepthFromFrontOrRear,
      spaceDepthFromSide,
    ),
  ]
}

const RECEIVERS: Sourced = { source: `${STANDARDS} 219.2 and Table 219.3`, status: 'read' }

function receiversAdvice({ amplified }: AdviceInput, seats: number | null): AdviceItem[] {
  if (!amplified) return []
  if (seats === null) {
    return [
      item(
        'listening-receivers',
        'How many hearing receivers to have ready depends on the seats, which are not known.',
        null,
        'receivers',
        RECEIVERS,
      ),
    ]
  }
  const { receivers, hearingAidCompatible } = listeningReceivers(seats)
  return [
    item(
      'listening-receivers',
      receivers === 0
        ? 'With no seats no hearing receivers are asked for.'
        : `With amplified sound have ${countText(receivers, 'hearing receiver', 'hearing receivers')} ready, ${numberText(hearingAidCompatible)} of them for hearing aids.`,
      receivers,
      'receivers',
      RECEIVERS,
    ),
  ]
}

const DINING: Sourced = { source: `${STANDARDS} 226.1 and 226.2`, status: 'second-hand' }

function diningAdvice({ units, tablesCount }: AdviceInput, seats: number | null): AdviceItem[] {
  if (tablesCount === 0) return []
  const { diningFloorWidth, diningFloorDepth, diningHeightLeast, diningHeightMost, tableEdgeToWay } =
    ACCESS_DIMENSIONS
  const places = seats === null ? null : accessibleDiningPlaces(seats)
  return [
    item(
      'accessible-dining-places',
      places === null || seats === null
        ? 'Leave one place in 20 at the tables without a chair for a wheelchair, spread about the room.'
        : `Of ${countText(seats, 'place', 'places')} at tables make ${numberText(places)} reachable in a wheelchair, spread about the room.`,
      places,
      'places',
      DINING,
    ),
    item(
      'dining-clear-floor',
      `Such a place has ${widthText(diningFloorWidth.value, units)} by ${widthText(diningFloorDepth.value, units)} of clear floor and a top ${numberText(shownWidth(diningHeightLeast.value, units))} to ${widthText(diningHeightMost.value, units)} high, with knee room under it.`,
      shownWidth(diningFloorWidth.value, units),
      widthUnit(units),
      diningFloorWidth,
      diningFloorDepth,
      diningHeightLeast,
      diningHeightMost,
    ),
    item(
      'dining-way-behind',
      `Keep ${widthText(tableEdgeToWay.value, units)} from the edge of the table to the way behind such a place.`,
      shownWidth(tableEdgeToWay.value, units),
      widthUnit(units),
      tableEdgeToWay,
    ),
  ]
}

/** None where no exit is entered: that is said elsewhere. */
function stepFreeAdvice({ exits }: AdviceInput): AdviceItem[] {
  if (exits.length === 0) return []
  const stepFree = exits.filter((exit) => exit.stepFree === true).length
  const isKnown = exits.every((exit) => typeof exit.stepFree === 'boolean')
  const text =
    stepFree > 0
      ? `${countText(stepFree, 'exit is', 'exits are')} without steps: keep the way there clear for people in wheelchairs.`
      : isKnown
        ? 'No exit is without steps: agree before doors how people in wheelchairs get out, with a place to wait and somebody to help.'
        : 'No exit is entered as without steps: find out, and agree how people in wheelchairs get out.'
  return [
    {
      topic: 'access',
      code: 'step-free-exit',
      text,
      found: isKnown || stepFree > 0 ? stepFree : null,
      required: 1,
      unit: 'exits',
      verdict: stepFree > 0 ? 'ok' : isKnown ? 'look' : 'unknown',
      source: 'one way out without steps at least; codes ask for more of them in larger rooms',
      status: 'common practice, no source',
    },
  ]
}

function routeAdvice({ units }: AdviceInput): AdviceItem[] {
  const { routeWidth, narrowRouteWidth, narrowRouteLength, turningCircle } = ACCESS_DIMENSIONS
  return [
    item(
      'accessible-route',
      `Keep a way of ${widthText(routeWidth.value, units)} clear from the doors to these places, ${widthText(narrowRouteWidth.value, units)} for at most ${widthText(narrowRouteLength.value, units)}, and ${widthText(turningCircle.value, units)} where a wheelchair turns.`,
      shownWidth(routeWidth.value, units),
      widthUnit(units),
      routeWidth,
      narrowRouteWidth,
      narrowRouteLength,
      turningCircle,
    ),
  ]
}
