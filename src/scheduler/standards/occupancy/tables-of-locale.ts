/** The default tables by locale. */
import type { CodeLocale, CodeTables } from './code-tables.ts'
import { UK_TABLES } from './uk-tables.ts'
import { US_TABLES } from './us-tables.ts'

/**
 * The default tables of a locale, which are all that a site can choose. Tables of a state or an authority (`NEW_YORK_TABLES`,
 * `UK_AUTHORITY_LOAD_FACTORS`) are for callers that bring their own: `{ ...codeTables('us'), sprinklerReductionTaken: false }`.
 */
export function codeTables(locale: CodeLocale): CodeTables {
  switch (locale) {
    case 'us':
      return US_TABLES
    case 'uk':
      return UK_TABLES
    default:
      throw new RangeError(`locale: expected us or uk, got ${String(locale satisfies never)}`)
  }
}
