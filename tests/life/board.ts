/** What the clients of a contest have been told so far, all of them together. */
import { z } from 'zod'
import type { Answered, Asked } from './a-client.ts'
import type { Wish } from './wishes.ts'

export interface Board {
  readonly bookings: { id: string; version: number }[]
  readonly closures: string[]
  shiftVersion: number
}

const WrittenBooking = z.object({ booking: z.object({ id: z.string(), version: z.int() }) })
const WrittenClosure = z.object({ id: z.string().startsWith('closure_'), decision: z.unknown() })

const idOf = ({ path }: Asked): string => path.split('/').at(-1) ?? ''
const versionIn = ({ headers }: Answered): number => Number(/\d+/.exec(headers.etag ?? '')?.[0])

function forget<Thing>(things: Thing[], is: (thing: Thing) => boolean): void {
  const index = things.findIndex(is)
  if (index >= 0) things.splice(index, 1)
}

/** Whoever is told that somebody else was first reads what there is now. */
export function readAgain(board: Board, { kind, asked }: Wish, read: Answered): void {
  if (kind === 'crew') board.shiftVersion = versionIn(read)
  const known = board.bookings.find(({ id }) => id === idOf(asked))
  if (known) known.version = versionIn(read)
}

/** What an answer tells everybody. */
export function see(board: Board, { kind, asked }: Wish, answered: Answered): void {
  const { status, text } = answered
  const id = idOf(asked)
  if (kind === 'book' && status === 201) {
    const { booking } = WrittenBooking.parse(JSON.parse(text))
    board.bookings.push({ id: booking.id, version: booking.version })
  }
  if (kind === 'change' && status === 200) {
    const { booking } = WrittenBooking.parse(JSON.parse(text))
    const known = board.bookings.find((one) => one.id === booking.id)
    // Answers may come in another order than the writes.
    if (known) known.version = Math.max(known.version, booking.version)
  }
  // Now and then a cancelled one stays on the board, and is tried again.
  if (kind === 'cancel' && (status === 409 || (status === 200 && board.bookings.length % 3 > 0)))
    forget(board.bookings, (one) => one.id === id)
  if (kind === 'close' && status === 201) board.closures.push(WrittenClosure.parse(JSON.parse(text)).id)
  if (kind === 'reopen' && status !== 200) forget(board.closures, (one) => one === id)
  if (kind === 'crew' && status === 200)
    board.shiftVersion = Math.max(board.shiftVersion, versionIn(answered))
}
