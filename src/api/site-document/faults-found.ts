/** Faults of a long document: counted to a bound, and told up to a smaller one. */
import { type Fault, Problem } from '../problems.ts'

const TOLD_MOST = 100
/** Nobody mends a thousand faults by hand: from there on the rest is not looked for. */
const FOUND_MOST = 1_000
/** A longer pointer holds a made-up name. Where it would have pointed is told, the name is not. */
const POINTER_CHARACTERS_MOST = 300

export class FaultsFound {
  readonly #faults: Fault[] = []
  readonly #places = new Set<string>()

  /** Whether there are so many that looking further is of no use. */
  get areEnough(): boolean {
    return this.#faults.length >= FOUND_MOST
  }

  get areNone(): boolean {
    return this.#faults.length === 0
  }

  /** Adds those for whose place nothing was found before this call; several of one call may share a place. */
  add(faults: readonly Fault[]): void {
    const newPlaces = faults.filter(({ at }) => !this.#places.has(at))
    for (const fault of newPlaces.slice(0, FOUND_MOST - this.#faults.length)) {
      this.#faults.push(withShortPointer(fault))
      this.#places.add(fault.at)
    }
  }

  /** @throws Problem invalid-input when there are any */
  refuse(): void {
    const [first] = this.#faults
    if (!first) return
    const where = first.at === '' ? '' : `${first.at}: `
    throw new Problem('invalid-input', `${where}${first.message}${this.#more()}`, {
      errors: this.#faults.slice(0, TOLD_MOST),
    })
  }

  #more(): string {
    const more = this.#faults.length - 1
    if (more === 0) return ''
    const atLeast = this.areEnough ? 'at least ' : ''
    const told = more < TOLD_MOST ? '' : `; the first ${TOLD_MOST} are listed`
    return ` (and ${atLeast}${more} more${told})`
  }
}

function withShortPointer(fault: Fault): Fault {
  if (fault.at.length <= POINTER_CHARACTERS_MOST) return fault
  const shown = fault.at.slice(0, POINTER_CHARACTERS_MOST)
  const at = shown.slice(0, shown.lastIndexOf('/'))
  return {
    ...fault,
    at,
    message: `${fault.message}: a name of ${fault.at.length - at.length - 1} characters`,
  }
}
