/** Receivers of an assistive listening system: for speech or sound that is amplified and matters to what goes on. */
import { count } from '../occupancy/checked-number.ts'
import type { Sourced } from '../occupancy/sourced.ts'

export interface ReceiverRow extends Sourced {
  readonly seatsAtMost: number | null
  readonly receivers: number
  /** One more for each so many seats, or part of it, over `countedOver`; null: none. */
  readonly seatsForEachMore: number | null
  readonly countedOver: number
  /** Hearing-aid compatible: so many, or one in so many of the receivers or part of it. */
  readonly compatible: { readonly count: number } | { readonly oneIn: number }
}

const sourced: Sourced = { source: '2010 ADA Standards, Table 219.3', status: 'read' }

/** Rising. */
export const LISTENING_RECEIVERS: readonly ReceiverRow[] = [
  {
    seatsAtMost: 50,
    receivers: 2,
    seatsForEachMore: null,
    countedOver: 0,
    compatible: { count: 2 },
    ...sourced,
  },
  {
    seatsAtMost: 200,
    receivers: 2,
    seatsForEachMore: 25,
    countedOver: 50,
    compatible: { count: 2 },
    ...sourced,
  },
  {
    seatsAtMost: 500,
    receivers: 2,
    seatsForEachMore: 25,
    countedOver: 50,
    compatible: { oneIn: 4 },
    ...sourced,
  },
  {
    seatsAtMost: 1000,
    receivers: 20,
    seatsForEachMore: 33,
    countedOver: 500,
    compatible: { oneIn: 4 },
    ...sourced,
  },
  {
    seatsAtMost: 2000,
    receivers: 35,
    seatsForEachMore: 50,
    countedOver: 1000,
    compatible: { oneIn: 4 },
    ...sourced,
  },
  {
    seatsAtMost: null,
    receivers: 55,
    seatsForEachMore: 100,
    countedOver: 2000,
    compatible: { oneIn: 4 },
    ...sourced,
  },
]

export interface ListeningReceivers {
  readonly receivers: number
  /** Of these, how many must work with hearing aids. */
  readonly hearingAidCompatible: number
}

/**
 * Receivers for so many seats; none for no seats. With an induction loop that covers every seat none of them need be
 * hearing-aid compatible. Whether any are needed at all (amplified sound, 219.2) is for the caller to know.
 * @throws RangeError for seats that are not a whole number of 0 or more
 * @source 2010 ADA Standards, Table 219.3 and exception 2
 */
export function listeningReceivers(seats: number, loopForAllSeats = false): ListeningReceivers {
  if (count('seats', seats) === 0) return { receivers: 0, hearingAidCompatible: 0 }
  const row = LISTENING_RECEIVERS.find(({ seatsAtMost }) => seatsAtMost === null || seats <= seatsAtMost)!
  const more = row.seatsForEachMore === null ? 0 : Math.ceil((seats - row.countedOver) / row.seatsForEachMore)
  const receivers = row.receivers + more
  const compatible =
    'count' in row.compatible ? row.compatible.count : Math.ceil(receivers / row.compatible.oneIn)
  return { receivers, hearingAidCompatible: loopForAllSeats ? 0 : compatible }
}

/**
 * Receivers for several rooms under one manager: counted on all seats together where every receiver works in every
 * room, else room by room. No rooms: none.
 * @throws RangeError for seats that are not whole numbers of 0 or more
 * @source 2010 ADA Standards 219.3, exception 1
 */
export function listeningReceiversOfRooms(input: {
  readonly seatsByRoom: readonly number[]
  readonly receiversWorkInAllRooms: boolean
}): ListeningReceivers {
  const seatsByRoom = input.seatsByRoom.map((seats, index) => count(`seatsByRoom[${index}]`, seats))
  if (input.receiversWorkInAllRooms)
    return listeningReceivers(seatsByRoom.reduce((sum, seats) => sum + seats, 0))
  const byRoom = seatsByRoom.map((seats) => listeningReceivers(seats))
  return {
    receivers: byRoom.reduce((sum, room) => sum + room.receivers, 0),
    hearingAidCompatible: byRoom.reduce((sum, room) => sum + room.hearingAidCompatible, 0),
  }
}
