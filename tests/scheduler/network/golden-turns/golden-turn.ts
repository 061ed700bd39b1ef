/** A turn worked out by hand, line by line, before anybody asked the program. */
import type { NetworkInput } from '../../../../src/scheduler/network/index.ts'

export interface SheetLine {
  readonly work: string
  /** Tasks of the network that this line is about. */
  readonly keys: RegExp
  /** The arithmetic, as it was written down. */
  readonly handling: string
  /** What the way between room and store adds; empty: nothing. */
  readonly way: string
  /** What the line comes to for a practised crew, in person-seconds. */
  readonly practisedPersonSeconds: number
  /** Times 1.725. */
  readonly crewPersonSeconds: number
}

export interface FixedLine {
  readonly work: string
  readonly keys: RegExp
  readonly time: string
  /** Hands × seconds of all its tasks together; 0 for what runs by itself. */
  readonly personSeconds: number
}

export interface GoldenTurn {
  readonly name: string
  readonly story: string
  readonly lines: readonly SheetLine[]
  readonly practisedPersonSeconds: number
  readonly crewPersonSeconds: number
  readonly fixed: readonly FixedLine[]
  readonly remarks: readonly string[]
  /** With so many hands it is ready after so many minutes. */
  readonly ready: readonly {
    readonly hands: number
    readonly minutesLeast: number
    readonly minutesMost: number
  }[]
  /** The ranges are about 6 to 8 % either way of a plan made by hand; false: they are those the model was built to. */
  readonly readyByHand: boolean
  readonly input: NetworkInput
}
