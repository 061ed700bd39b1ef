/**
 * What must be true of a site after every write: one checker for all tests and for `npm run verify`. It derives each
 * turn anew from the bookings and compares it with what is stored. One rule, or a few that belong together, in each file.
 */
import type { SiteSnapshot } from '../../../domain/snapshot.ts'
import { cancelledHold } from './cancelled-hold.ts'
import { devicesAtDoors } from './devices-at-doors.ts'
import { guestsIn } from './guests-in.ts'
import { handsHeldTwice } from './hands-held-twice.ts'
import { handsOffDuty } from './hands-off-duty.ts'
import { helpersLed } from './helpers-led.ts'
import { linksKept } from './links-kept.ts'
import { piecesConserved } from './pieces-conserved.ts'
import { plansWhole } from './plans-whole.ts'
import { resourcesOverCount } from './resources-over-count.ts'
import { sectionsTakenTwice } from './sections-taken-twice.ts'
import { storesClosed } from './stores-closed.ts'
import { turnsAsDerived } from './turns-as-derived.ts'
import { warningsAsNeeded } from './warnings-as-needed.ts'
import { type Rule, wholeSite } from './whole-site.ts'

const rules: readonly Rule[] = [
  sectionsTakenTwice,
  turnsAsDerived,
  plansWhole,
  warningsAsNeeded,
  handsOffDuty,
  helpersLed,
  handsHeldTwice,
  resourcesOverCount,
  storesClosed,
  piecesConserved,
  linksKept,
  devicesAtDoors,
  guestsIn,
  cancelledHold,
]

/**
 * @param snapshot  everything of the site, bookings that are cancelled and turns that are dropped too; what a store loads
 *   is without those, and `cancelledHold` then has nothing to look at: whoever asks of such a snapshot compares the rows
 *   themselves, as `verify` does
 * @returns one sentence a broken promise; empty: all hold
 */
export function brokenInvariants(snapshot: SiteSnapshot): string[] {
  const site = wholeSite(snapshot)
  return rules.flatMap((rule) => rule(site))
}
