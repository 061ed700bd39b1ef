/** A moment beside doors: the time alone on the same day, else with the day. */
import type { Instant } from '../../domain/instant.ts'
import { dayAndTimeOf, localDateOf, localTimeOf } from '../timeline/wall-time.ts'

export const momentText = (moment: Instant, doorsAt: Instant, zone: string): string =>
  localDateOf(moment, zone) === localDateOf(doorsAt, zone)
    ? localTimeOf(moment, zone)
    : dayAndTimeOf(moment, zone)
