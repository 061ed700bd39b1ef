/** Reads a whole set-up as somebody would who has run halls for thirty years. */
import { type Finding, findingKinds } from '../../domain/finding.ts'
import type { Instant } from '../../domain/instant.ts'
import { setupKinds } from '../../domain/setup.ts'
import { rules } from './rules/index.ts'
import { setupReading } from './setup-reading.ts'
import type { SetupToCheck } from './setup-to-check.ts'

/**
 * What is missing or odd, each with its fix; none for a complete, sensible set-up.
 * @param setup  rows by id; the zone of the site must exist
 * @param now    what has ended, expired or is out of service is judged by it
 * @returns in the order of `findingKinds`, then by kind of row, id, field and message
 */
export function checkSetup(setup: SetupToCheck, now: Instant): Finding[] {
  const reading = setupReading(setup, now)
  return rules
    .flatMap((rule) => rule(reading))
    .map((found) => ({ ...found, weight: findingKinds[rank(found)]!.weight }))
    .sort(
      (a, b) =>
        rank(a) - rank(b) ||
        setupKinds.indexOf(a.about.kind) - setupKinds.indexOf(b.about.kind) ||
        byText(a.about.id, b.about.id) ||
        byText(a.field ?? '', b.field ?? '') ||
        byText(a.message, b.message),
    )
}

const rankByCode = new Map(findingKinds.map(({ code }, index) => [code, index]))
const rank = ({ code }: Pick<Finding, 'code'>): number => rankByCode.get(code)!

const byText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)
