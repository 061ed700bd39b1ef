/** The page that lists every finding, made from the one list in the code. */
import { findingKinds } from '../../../src/domain/finding.ts'

const headings = {
  missing: 'Missing: without it plans are wrong or bookings are refused',
  odd: 'Odd: it can hardly be meant so',
  note: 'Note: it may well be meant so, and is worth a look',
} as const

export function findingsPage(): string {
  const sections = (['missing', 'odd', 'note'] as const).map((weight) => {
    const rows = findingKinds
      .filter((kind) => kind.weight === weight)
      .map(({ code, says }) => `- \`${code}\`: ${says}`)
    return `## ${headings[weight]}\n\n${rows.join('\n')}\n`
  })
  return `# What the check of the hall can find

\`GET /v1/sites/{site}/check\` reads the whole set-up and lists what is missing or odd, what matters most first, each with
the row and field it speaks of and with what to do. A set-up with nothing to say about gives an empty list. It reads only:
nothing is refused because of a finding.

${sections.join('\n')}`
}
