/**
 * Whether every answer of a contest follows from one order of writes, that of the audit: each request is decided again by
 * the pure core, on the state of the site at a moment between its being sent and its being answered.
 */
import { isDeepStrictEqual } from 'node:util'
import { z } from 'zod'
import { wire } from '../../src/api/wire.ts'
import type { Decision } from '../../src/domain/decision.ts'
import type { SiteSnapshot } from '../../src/domain/snapshot.ts'
import type { AuditEntry } from '../../src/store/store.ts'
import type { Attempt } from './contest.ts'
import { decidedOn, stateAfter, tellsOf } from './decided-again.ts'
import { type Decided, type Decisions, nameOfEnding } from './recording-decider.ts'
import { VersionsTold } from './versions-told.ts'

export interface Explanation {
  /** One sentence an answer, or a write, that nothing explains. */
  readonly unexplained: readonly string[]
  /** Everything of the site after the last write, by the pure core alone. */
  readonly last: SiteSnapshot
  /** How many writes and how many refusals were decided again. */
  readonly decidedAgain: { readonly writes: number; readonly refusals: number }
}

/**
 * @param start    everything of the site before the contest
 * @param entries  of the audit since then, oldest first
 */
export function explained(
  start: SiteSnapshot,
  entries: readonly AuditEntry[],
  attempts: readonly Attempt[],
  decisions: Decisions,
): Explanation {
  const { writes, refusals, unexplained } = sorted(entries, attempts, decisions)
  let state = start
  for (const entry of entries) {
    unexplained.push(...refusalsThatDiffer(state, refusals))
    const name = nameOfEntry(entry)
    const operations = decidedAt(decisions, name, state.planningVersion)?.operations
    const write = writes.get(name)
    const decision = operations ? decidedOn(state, operations) : null
    if (!write || !decision?.changes || !tellsOf(entry.effects, decision.changes)) {
      unexplained.push(`entry ${entry.sequence} of the audit (${entry.action}) does not follow from ${name}`)
      // From here on nothing would.
      return { unexplained, last: state, decidedAgain: { writes: 0, refusals: 0 } }
    }
    writes.delete(name)
    if (!isWithin(write, entry.planningVersion, 'written'))
      unexplained.push(`${name} was written at another time`)
    if (!answersWrite(write, entry, decision, state.site.zone))
      unexplained.push(`${name} was answered otherwise`)
    state = stateAfter(state, decision.changes)
  }
  unexplained.push(...refusalsThatDiffer(state, refusals))
  for (const name of writes.keys()) unexplained.push(`${name} was acknowledged, and not written`)
  const counts = [...refusals.values()].reduce((sum, list) => sum + list.length, 0)
  return { unexplained, last: state, decidedAgain: { writes: entries.length, refusals: counts } }
}

interface Refusal {
  readonly attempt: Attempt
  readonly decided: Decided
}

interface Sorted {
  /** By name: what was acknowledged. */
  readonly writes: Map<string, Attempt>
  /** By the version of the site on which it was decided: what was answered with a decision and not written. */
  readonly refusals: Map<number, Refusal[]>
  readonly unexplained: string[]
}

function sorted(entries: readonly AuditEntry[], attempts: readonly Attempt[], decisions: Decisions): Sorted {
  const versions = new VersionsTold(entries)
  const writes = new Map<string, Attempt>()
  const refusals = new Map<number, Refusal[]>()
  const unexplained = [...repeatsThatDiffer(attempts)]
  for (const attempt of attempts) {
    const { kind, name, answered } = attempt
    if (answered.headers['idempotent-replayed'] === 'true') continue
    const is = `${kind} ${name} got ${answered.status} ${slugOf(attempt) ?? ''}`
    if (isWrite(attempt)) {
      if (writes.has(name)) unexplained.push(`${is} twice`)
      writes.set(name, attempt)
    } else if (slugOf(attempt) === 'does-not-fit' || (kind === 'ask' && answered.status === 200)) {
      const decided = decisions.get(name)?.at(-1)
      const version = decided?.answer.kind === 'decided' ? decided.answer.planningVersion : null
      if (!decided || version === null || !isWithin(attempt, version, 'seen'))
        unexplained.push(`${is} at another time`)
      else refusals.set(version, [...(refusals.get(version) ?? []), { attempt, decided }])
    } else if (!isOvertaken(attempt, versions)) unexplained.push(is)
  }
  return { writes, refusals, unexplained }
}

const isWrite = ({ kind, answered: { status } }: Attempt): boolean =>
  kind !== 'ask' && kind !== 'reuse' && (status === 200 || status === 201)

/** A write comes after what was there before it was sent; what is only seen may be just that. */
const isWithin = (
  { versionBefore, versionAfter }: Attempt,
  version: number,
  how: 'written' | 'seen',
): boolean =>
  (how === 'written' ? versionBefore < version : versionBefore <= version) && version <= versionAfter

/** So often others are faster before the sender is told so. */
const ROUNDS_MOST = 5

/** Whether a no that rests on no decision is true: another write came between what the sender had seen and this. */
function isOvertaken(attempt: Attempt, versions: VersionsTold): boolean {
  const { kind, asked, versionBefore, versionAfter } = attempt
  const rowId = asked.path.split('/').at(-1) ?? ''
  const seen = versions.during(rowId, versionBefore, versionAfter)
  const ifMatch = Number(/\d+/.exec(asked.headers?.['if-match'] ?? '')?.[0])
  switch (slugOf(attempt)) {
    case 'version-mismatch':
      return seen.some(({ version }) => version !== ifMatch)
    case 'already-cancelled':
    case 'already-retired':
      return seen.some(({ isOver }) => isOver)
    case 'idempotency-key-reused':
      return kind === 'reuse'
    case 'conflict':
      return versionAfter - versionBefore >= ROUNDS_MOST
    default:
      return false
  }
}

/** A yes, and a judged no. What was never judged (others were faster too often) may be sent again and is asked anew. */
const isKept = ({ answered: { status, text } }: Attempt): boolean =>
  status < 300 || text.includes('/problems/does-not-fit')

/** A post is answered once, and then the same again. */
function* repeatsThatDiffer(attempts: readonly Attempt[]): Generator<string> {
  const byName = new Map<string, Attempt[]>()
  for (const attempt of attempts) {
    if (attempt.kind === 'book' || attempt.kind === 'close' || attempt.kind === 'repeat')
      byName.set(attempt.name, [...(byName.get(attempt.name) ?? []), attempt])
  }
  for (const [name, all] of byName) {
    const same = all.filter(isKept)
    if (same.length === 0) continue
    const answers = new Set(same.map(({ answered: { status, text } }) => `${status} ${text}`))
    const first = same.filter(({ answered }) => answered.headers['idempotent-replayed'] !== 'true')
    if (answers.size !== 1) yield `${name} was answered in ${answers.size} ways`
    if (first.length !== 1) yield `${name} was done ${first.length} times`
  }
}

const decidedAt = (decisions: Decisions, name: string, version: number): Decided | undefined =>
  decisions.get(name)?.find(({ answer }) => answer.kind === 'decided' && answer.planningVersion === version)

function* refusalsThatDiffer(
  state: SiteSnapshot,
  refusals: ReadonlyMap<number, readonly Refusal[]>,
): Generator<string> {
  for (const { attempt, decided } of refusals.get(state.planningVersion) ?? []) {
    const decision = decidedOn(state, decided.operations)
    if (!answersDecision(attempt, decision, state.site.zone)) yield `${attempt.name} was judged otherwise`
    if (attempt.kind !== 'ask' && decision.changes) yield `${attempt.name} was refused, and can be done`
  }
}

const WithDecision = z.looseObject({ decision: z.looseObject({ alternatives: z.array(z.unknown()) }) })

function answersDecision({ answered }: Attempt, decision: Decision, zone: string): boolean {
  const { decision: found } = WithDecision.parse(JSON.parse(answered.text))
  const { changes: _, ...expected } = decision
  // Other times are looked for only where they are asked for.
  return isDeepStrictEqual({ ...found, alternatives: [] }, inWire({ ...expected, alternatives: [] }, zone))
}

/** Whether the answer shows the row as it was written, and what follows from it. */
function answersWrite(attempt: Attempt, { effects }: AuditEntry, decision: Decision, zone: string): boolean {
  const answer: unknown = JSON.parse(attempt.answered.text)
  const row = effects.find(({ table }) => table !== 'turn')
  const { decision: _decision, ...shown } = z.record(z.string(), z.unknown()).parse(answer)
  // A booking stands beside the decision on it, a row of the hall carries it.
  const found = row?.table === 'booking' ? shown.booking : shown
  return isDeepStrictEqual(found, inWire(row?.after, zone)) && answersDecision(attempt, decision, zone)
}

const inWire = (value: unknown, zone: string): unknown =>
  JSON.parse(JSON.stringify(wire(value, zone) ?? null))

const Problem = z.looseObject({ type: z.string() })

/** Which problem it is; null: it is none. */
export function slugOf({ answered: { status, text } }: Attempt): string | null {
  if (status < 400) return null
  return Problem.parse(JSON.parse(text)).type.split('/').at(-1) ?? null
}

const Named = z.looseObject({
  id: z.string(),
  title: z.string().optional(),
  reason: z.string().optional(),
  name: z.string().optional(),
  status: z.string().optional(),
  retiredAt: z.int().nullish(),
})

/** What the request went by that made this entry. */
function nameOfEntry({ effects }: AuditEntry): string {
  const row = effects.find(({ table }) => table !== 'turn')
  const { id, title, reason, name, status, retiredAt } = Named.parse(row?.after)
  const isOver = status === 'CANCELLED' || (retiredAt ?? null) !== null
  return isOver ? nameOfEnding(id) : (title ?? reason ?? name ?? id)
}
