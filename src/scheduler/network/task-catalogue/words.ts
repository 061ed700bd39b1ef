/** Words and sentences that all texts of a task list are made of, for people who have never seen one. */
import {
  KILOGRAMS_PER_POUND,
  METRES_PER_FOOT,
  SQUARE_METRES_PER_SQUARE_FOOT,
} from '../../../domain/imperial-factors.ts'
import type { UnitSystem } from '../../../domain/site.ts'
import type { TaskMode } from '../../../domain/task-mode.ts'

const TEXT_CHARACTERS_MOST = 400

/** As many of the sentences, in order, as fit a task's text; the first is cut with an ellipsis if it does not fit alone. */
export function taskText(sentences: readonly string[]): string {
  let text = ''
  for (const sentence of sentences) {
    const longer = text === '' ? sentence : `${text} ${sentence}`
    if (longer.length > TEXT_CHARACTERS_MOST) break
    text = longer
  }
  return text === '' ? `${(sentences[0] ?? '').slice(0, TEXT_CHARACTERS_MOST - 1)}…` : text
}

/** `For 1 to 4 people.`, `For 2 or 4 people, 2 to each piece.`; modes with fewest hands first, not empty. */
export function peopleText(modes: readonly TaskMode[], handsPerPiece = 1): string {
  const hands = modes.map((mode) => mode.hands)
  const least = hands[0]!
  const most = hands.at(-1)!
  const people = most === 1 ? '1 person' : `${handsRange(least, most, hands.length)} people`
  return most === handsPerPiece || handsPerPiece === 1
    ? `For ${people}.`
    : `For ${people}, ${handsPerPiece} to each piece.`
}

function handsRange(least: number, most: number, numbers: number): string {
  if (numbers === 1) return `${most}`
  return numbers === 2 ? `${least} or ${most}` : `${least} to ${most}`
}

/** `40 s`, `2 min`: seconds up to a minute and a half, then minutes, rounded up. */
export const durationText = (seconds: number): string =>
  seconds <= 90 ? `${seconds} s` : `${Math.ceil(seconds / 60)} min`

/** `72 m²`, `775 ft²`, rounded up. */
export const areaText = (squareMetres: number, units: UnitSystem): string =>
  units === 'metric'
    ? `${Math.ceil(squareMetres - 1e-9)} m²`
    : `${Math.ceil(squareMetres / SQUARE_METRES_PER_SQUARE_FOOT - 1e-9)} ft²`

/** `25 m`, `82 ft`, rounded. */
export const distanceText = (metres: number, units: UnitSystem): string =>
  units === 'metric' ? `${Math.round(metres)} m` : `${Math.round(metres / METRES_PER_FOOT)} ft`

/** `28 kg`, `62 lb`, rounded, tenths where it is light. */
export function massText(kilograms: number, units: UnitSystem): string {
  const mass = units === 'metric' ? kilograms : kilograms / KILOGRAMS_PER_POUND
  return `${mass < 10 ? Math.round(mass * 10) / 10 : Math.round(mass)} ${units === 'metric' ? 'kg' : 'lb'}`
}
