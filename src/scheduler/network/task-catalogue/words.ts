/** Words and sentences that all texts of a task list are made of, for people who have never seen one. */
import type { Furnishing } from '../../../domain/furnishing.ts'
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

/** `1 person`, `2 people`. */
export const countText = (count: number, one: string, several: string): string =>
  `${count} ${count === 1 ? one : several}`

/** `1 round table`, `18 round tables`. */
export const piecesText = (furnishing: Furnishing, count: number): string =>
  `${count} ${count === 1 ? furnishing.name : furnishing.namePlural}`

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

/** `a`, `a and b`, `a, b and c`. */
export const listText = (words: readonly string[]): string =>
  words.length < 2 ? (words[0] ?? '') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`

/** `40 s`, `2 min`: seconds up to a minute and a half, then minutes, rounded up. */
export const durationText = (seconds: number): string =>
  seconds <= 90 ? `${seconds} s` : `${Math.ceil(seconds / 60)} min`

const SQUARE_FEET_PER_SQUARE_METRE = 10.7639
const FEET_PER_METRE = 3.28084
const POUNDS_PER_KILOGRAM = 2.204_62

/** `72 m²`, `775 ft²`, rounded up. */
export const areaText = (squareMetres: number, units: UnitSystem): string =>
  units === 'metric'
    ? `${Math.ceil(squareMetres - 1e-9)} m²`
    : `${Math.ceil(squareMetres * SQUARE_FEET_PER_SQUARE_METRE - 1e-9)} ft²`

/** `25 m`, `82 ft`, rounded. */
export const distanceText = (metres: number, units: UnitSystem): string =>
  units === 'metric' ? `${Math.round(metres)} m` : `${Math.round(metres * FEET_PER_METRE)} ft`

/** `28 kg`, `62 lb`, rounded, tenths where it is light. */
export function massText(kilograms: number, units: UnitSystem): string {
  const mass = units === 'metric' ? kilograms : kilograms * POUNDS_PER_KILOGRAM
  return `${mass < 10 ? Math.round(mass * 10) / 10 : Math.round(mass)} ${units === 'metric' ? 'kg' : 'lb'}`
}
