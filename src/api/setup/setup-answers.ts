/** How rows of the set-up are answered. */
import type { DecisionAnswer } from '../../domain/decision.ts'
import type { SiteId } from '../../domain/ids.ts'
import type { SetupKind, SetupRows } from '../../domain/setup.ts'
import type { Site } from '../../domain/site.ts'
import type { StoredRow } from '../../store/store.ts'
import { type Answer, jsonAnswer } from '../answer.ts'
import type { ApiContext } from '../context.ts'
import { etagOf } from '../if-match.ts'
import type { SetupReading, SetupResource } from './setup-resource.ts'

/** Rows with their version and since when they are out of use, in the same order. */
export async function presented<Kind extends SetupKind>(
  context: ApiContext,
  { present }: SetupReading<Kind>,
  stored: readonly StoredRow<SetupRows[Kind]>[],
  siteId: SiteId,
): Promise<object[]> {
  const rows = stored.map(({ row }) => row)
  const shown = present ? await present(context, rows, siteId) : rows
  return stored.map(({ version, retiredAt }, index) => ({ ...shown[index], version, retiredAt }))
}

/** What no turn feels. */
export const NOTHING_DECIDED: DecisionAnswer = {
  verdict: 'fits',
  reasons: [],
  before: null,
  after: null,
  affected: [],
  alternatives: [],
}

/** What was written, with what follows from it for the turns. */
export function writtenAnswer<Kind extends SetupKind>(
  status: 200 | 201,
  { segment }: SetupResource<Kind>,
  site: Site,
  row: object,
  stored: StoredRow<SetupRows[Kind]>,
  decision: DecisionAnswer,
): Answer {
  const { version, retiredAt } = stored
  return jsonAnswer(status, { ...row, version, retiredAt, decision }, site.zone, {
    etag: etagOf(stored),
    ...(status === 201 ? { location: `/v1/sites/${site.id}/${segment}/${stored.row.id}` } : {}),
  })
}
