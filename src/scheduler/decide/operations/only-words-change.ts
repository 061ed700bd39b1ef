/** Whether what is asked changes only what nothing follows from: what a booking is called, and until when it is held. */
import type { Booking } from '../../../domain/booking.ts'
import type { Operation } from '../../../domain/operation.ts'
import { textOf } from '../text-of.ts'
import type { WorldAfter } from './world-after.ts'

/** To ask for what stands as it stands is none: that is asked anew. */
export const onlyWordsChange = (
  operations: readonly Operation[],
  { bookings }: Pick<WorldAfter, 'bookings'>,
): boolean =>
  operations.every(({ kind }) => kind === 'change') &&
  bookings.some(
    ({ before, after }) => before !== null && textOf(wordsOf(before)) !== textOf(wordsOf(after)),
  ) &&
  bookings.every(({ before, after }) => before !== null && textOf(restOf(before)) === textOf(restOf(after)))

const wordsOf = ({ title, holdExpiresAt }: Booking) => ({ title, holdExpiresAt })
const restOf = ({ title: _title, holdExpiresAt: _until, version: _version, ...rest }: Booking) => rest
