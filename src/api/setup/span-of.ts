/** For how long a change of the set-up is looked at at once: turns whose time meets the span are judged anew. */
import type { HalfOpenInterval } from '../../domain/half-open-interval.ts'
import { earlierOf, Instant, instantPlusSeconds, LATEST_AT, laterOf } from '../../domain/instant.ts'
import type { SetupWrite } from '../../domain/setup.ts'
import type { LocalDate } from '../../domain/units.ts'
import { dateAfter, instantOfLocal } from '../../scheduler/timeline/wall-time.ts'

/** What has no end of its own is looked at for so long at least: 28 days. */
const AHEAD_SECONDS = 28 * 86_400
/** And as far as this many turns to come, however far apart they are: the others are looked at in the background. */
export const TURNS_LOOKED_AT_MOST = 300
/** Where something moves from one time to another far away, so much from the first of the two: 1,000 days. */
const LONGEST_SECONDS = 1_000 * 86_400

export interface SpanLookedAt {
  readonly span: HalfOpenInterval
  /** Nothing behind the span feels the change. */
  readonly isWhole: boolean
}

/**
 * Both the time the row had and the one it has now; what is past is past. Never empty.
 * @param lastDueAt  doors of the last of the turns to come that are looked at; null: there is none to come
 */
export function spanOf(
  write: SetupWrite,
  zone: string,
  now: Instant,
  lastDueAt: Instant | null,
): SpanLookedAt {
  const times = timesOf(write, zone).map(({ fromAt, toAt }) => {
    const from = laterOf(now, fromAt ?? now)
    const until = laterOf(instantPlusSeconds(from, AHEAD_SECONDS), lastDueAt ?? from)
    const isWhole = toAt !== null && (isBounded(write) || toAt <= until)
    return { fromAt: from, toAt: isWhole ? toAt : until, isWhole }
  })
  const fromAt = times.map((time) => time.fromAt).reduce(earlierOf)
  const toAt = times.map((time) => time.toAt).reduce(laterOf)
  const latestAt = earlierOf(instantPlusSeconds(fromAt, LONGEST_SECONDS), Instant.parse(LATEST_AT))
  return {
    span: { fromAt, toAt: laterOf(instantPlusSeconds(fromAt, 1), earlierOf(toAt, latestAt)) },
    isWhole: times.every((time) => time.isWhole) && toAt <= latestAt,
  }
}

/** Closures and shifts of one day are bounded by their own faults, and looked at to their end. */
const isBounded = ({ kind, after }: SetupWrite): boolean =>
  kind === 'closure' || (kind === 'shift' && 'times' in after && after.times.kind === 'once')

interface Times {
  /** null: as of now. */
  readonly fromAt: Instant | null
  /** null: no end. */
  readonly toAt: Instant | null
}

function timesOf(write: SetupWrite, zone: string): Times[] {
  const always = { fromAt: null, toAt: null }
  switch (write.kind) {
    case 'closure':
    case 'stockChange':
      return [write.after, ...(write.before ? [write.before] : [])]
    case 'shift':
      return [write.after, ...(write.before ? [write.before] : [])].map(({ times }) =>
        times.kind === 'once'
          ? { fromAt: times.startsAt, toAt: times.endsAt }
          : {
              fromAt: startOf(times.firstDate, zone),
              toAt: times.lastDate === null ? null : endOf(times.lastDate, zone),
            },
      )
    default:
      return [always]
  }
}

const startOf = (date: LocalDate, zone: string): Instant => instantOfLocal(zone, date, '00:00')
/** A shift that begins on the day may reach into the next. */
const endOf = (date: LocalDate, zone: string): Instant => startOf(dateAfter(date, 2), zone)
