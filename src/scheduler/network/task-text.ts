/** Sentences of a task list, for people who have never seen one. */
import type { Furnishing } from '../../domain/furnishing.ts'
import type { TaskMode } from '../../domain/task.ts'

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

/** `40 s`, `2 min`: seconds up to a minute and a half, then minutes, rounded up. */
export const durationText = (seconds: number): string =>
  seconds <= 90 ? `${seconds} s` : `${Math.ceil(seconds / 60)} min`
