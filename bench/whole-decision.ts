/**
 * Speed of the decision at a site of six rooms: 10,000 bookings, 36 turns in a weekend. Milliseconds are this machine's;
 * what matters is how they stand to one another.
 */
import { type ChildProcess, spawn } from 'node:child_process'
import { rmSync } from 'node:fs'
import path from 'node:path'
import { z } from 'zod'
import type { Changes } from '../src/domain/decision.ts'
import { PolicyId } from '../src/domain/ids.ts'
import type { Instant } from '../src/domain/instant.ts'
import type { Operation } from '../src/domain/operation.ts'
import type { SiteSnapshot } from '../src/domain/snapshot.ts'
import type { Turn } from '../src/domain/turn.ts'
import { decide } from '../src/scheduler/decide/index.ts'
import { worldAfter } from '../src/scheduler/decide/operations/world-after.ts'
import { judgedTogether } from '../src/scheduler/decide/turns/judged-together.ts'
import { openSqliteStore } from '../src/store/open-sqlite-store.ts'
import { BUSY, type DayPattern, FIRST_DAY, fillBusySite, SHORT_HANDED, SITE } from './a-busy-site.ts'
import { type Asked, quantile, withConnections } from './load.ts'
import { localService, root } from './local-service.ts'
import { SIGNED_IN } from './signed-in.ts'

export interface Reporting {
  readonly folder: string
  readonly report: (what: string, measured: string, goal: string, reached: boolean) => void
  readonly requests: (
    count: number,
    firstDay: number,
    prefix: string,
    slot?: string,
    onlyRoom?: number,
  ) => Asked[]
}

const BOOKINGS = 10_000
const ms = (value: number) => `${value.toFixed(1)} ms`

/** Asked one after the other, each with its answer awaited: what one person at a desk meets. */
export async function restOfCrew({ folder, report, requests }: Reporting): Promise<void> {
  await onSite(folder, BUSY, async (url) => {
    await withConnections(url, 1, requests(60, 20, 'warm'))
    const moved = new NeighboursMoved()
    const { milliseconds } = await withConnections(url, 1, requests(300, 40, 'rest'), moved.look)
    moved.assertAllAccepted(300, (neighbours) => neighbours === 0)
    const p95 = quantile(milliseconds, 0.95)
    report(
      `a booking on ${BOOKINGS} where the rest of the crew suffices`,
      `median ${ms(quantile(milliseconds, 0.5))}, p95 ${ms(p95)}`,
      'p95 ≤ 60 ms',
      p95 <= 60,
    )
  })
}

/** A gap of 50 minutes at an hour for which everybody is planned elsewhere, in gaps that are longer. */
export async function plannedTogether({ folder, report, requests }: Reporting): Promise<void> {
  await onSite(folder, SHORT_HANDED, async (url) => {
    const slot = '11:50-13:00-supper'
    await withConnections(url, 1, requests(10, 20, 'warm', slot, 1))
    const moved = new NeighboursMoved()
    const { milliseconds } = await withConnections(url, 1, requests(100, 40, 'joint', slot, 1), moved.look)
    moved.assertAllAccepted(100, (neighbours) => neighbours > 0)
    const p95 = quantile(milliseconds, 0.95)
    report(
      `a booking for which neighbouring turns are planned anew (${moved.mean().toFixed(1)} of them)`,
      `median ${ms(quantile(milliseconds, 0.5))}, p95 ${ms(p95)}`,
      'p95 ≤ 250 ms',
      p95 <= 250,
    )
  })
}

const Accepted = z.object({ decision: z.object({ affected: z.array(z.unknown()) }) })

/** What was measured is what was meant: each booking is accepted, and for each it is counted whose plans it moved. */
class NeighboursMoved {
  private readonly counts: number[] = []
  private readonly refused: string[] = []

  readonly look = (status: number, body: string): void => {
    if (status === 201) this.counts.push(Accepted.parse(JSON.parse(body)).decision.affected.length)
    else this.refused.push(`${status} ${body.slice(0, 300)}`)
  }

  mean(): number {
    return this.counts.reduce((sum, count) => sum + count, 0) / this.counts.length
  }

  /** @throws Error where one was refused, or moved other neighbours than it should */
  assertAllAccepted(asked: number, isMeant: (neighbours: number) => boolean): void {
    const others = this.counts.filter((count) => !isMeant(count))
    if (this.counts.length === asked && others.length === 0) return
    throw new Error(
      `not what is measured: of ${asked} bookings ${this.counts.length} were accepted, ${others.length} of them moved ` +
        `${others[0] ?? 'no'} neighbours; ${this.refused[0] ?? 'none was refused'}`,
    )
  }
}

/**
 * The core alone: everybody is briefed for a minute and a half longer, every stored plan is moved along its own order. No other work
 * is longer, so none falls into more parts than before, and nothing has to be looked for.
 */
export async function retiming({ folder, report }: Reporting): Promise<void> {
  const file = path.join(folder, 'retiming.sqlite')
  await fillBusySite(file, 1_000)
  const store = await openSqliteStore({ file })
  const firstAt = Date.parse(`${FIRST_DAY}T00:00:00Z`)
  const window = { fromAt: (firstAt - 86_400_000) as Instant, toAt: (firstAt + 60 * 86_400_000) as Instant }
  const snapshot = await store.load(SITE.id, window, (firstAt - 3_600_000) as Instant)
  store.close()
  if (!snapshot) throw new Error('the busy site is gone')
  const slower = {
    ...snapshot.policy,
    id: PolicyId.parse('policy_slower'),
    briefingSeconds: snapshot.policy.briefingSeconds + 90,
  }
  const span = { fromAt: snapshot.now, toAt: window.toAt }
  const operation = {
    kind: 'set-up' as const,
    writes: [{ kind: 'policy' as const, before: snapshot.policy, after: slower, retire: false }],
    span,
    restFromAt: null,
  }
  // What has begun goes on as it is.
  const toCome = snapshot.turns.filter(({ plan }) => plan && plan.startsAt > snapshot.now).length
  const seconds: number[] = []
  // The first rounds warm up, as a service is that has run for a while.
  for (let round = 0; round < 8; round += 1) {
    const began = performance.now()
    const { changes } = decide(snapshot, [operation], { withoutAlternatives: true })
    seconds.push((performance.now() - began) / 1000)
    assertAllMoved(toCome, changes)
  }
  assertNothingSearched(snapshot, operation, toCome)
  const best = Math.min(...seconds)
  report(
    `stored plans moved along their own order (${toCome} turns, best of ${seconds.length}, nothing looked for)`,
    `${(toCome / best).toFixed(0)}/s`,
    '≥ 2,000/s',
    toCome / best >= 2_000,
  )
}

/** @throws Error unless so many turns are written anew with the same work, and most of them at other times */
function assertAllMoved(count: number, changes: Changes | null): void {
  const written = changes?.turns ?? []
  const workOf = (turn: Turn | null) =>
    JSON.stringify((turn?.plan?.tasks ?? []).map(({ key, hands }) => [key, hands]).sort())
  const timesOf = (turn: Turn | null) => JSON.stringify(turn?.plan?.tasks.map(({ endsAt }) => endsAt))
  const same = written.filter(({ before, after }) => before?.plan && workOf(before) === workOf(after))
  const moved = written.filter(({ before, after }) => timesOf(before) !== timesOf(after))
  if (written.length === count && same.length === count && 2 * moved.length > count) return
  throw new Error(
    `not what is measured: of ${count} turns ${written.length} were written, ${same.length} with the same work, ` +
      `${moved.length} at other times`,
  )
}

/** @throws Error where a plan was looked for anew, or left for later */
function assertNothingSearched(snapshot: SiteSnapshot, operation: Operation, count: number): void {
  const { turns, restFromAt } = judgedTogether(worldAfter(snapshot, [operation]), snapshot.turns, [operation])
  const searched = turns.filter(({ wasSearched }) => wasSearched)
  if (searched.length === 0 && restFromAt === null && turns.length === count) return
  throw new Error(
    `not what is measured: of ${count} turns ${turns.length} were looked at, ${searched.length} planned anew`,
  )
}

/** A new rate set touches every turn to come: the answer comes at once, the rest is worked off in the background. */
export async function rateChange({ folder, report }: Reporting): Promise<void> {
  await onSite(folder, BUSY, async (url) => {
    const site = `${url}/v1/sites/${SITE.id}`
    const headers = { 'content-type': 'application/json', ...SIGNED_IN }
    const body = JSON.stringify({ name: 'Slower', rates: { walkingMetresPerSecond: 1.2 } })
    const began = performance.now()
    const answer = await fetch(`${site}/rate-sets`, { method: 'POST', headers, body })
    await answer.arrayBuffer()
    const answeredAfter = performance.now() - began
    const staleCount = async () => {
      const warnings = (await (await fetch(`${site}/warnings?limit=1`, { headers: SIGNED_IN })).json()) as {
        staleCount: number
      }
      return warnings.staleCount
    }
    const staleAtFirst = await staleCount()
    let stale = staleAtFirst
    while (stale > 0 && performance.now() - began < 120_000) {
      await new Promise((resolve) => setTimeout(resolve, 250))
      stale = await staleCount()
    }
    const doneAfter = performance.now() - began
    report(
      `a rate set for ${BOOKINGS} bookings to come (${answer.status}; ${staleAtFirst} turns left to the background)`,
      `answered after ${(answeredAfter / 1000).toFixed(2)} s, all looked at after ${(doneAfter / 1000).toFixed(0)} s`,
      'answered ≤ 2 s',
      answeredAfter <= 2_000 && stale === 0,
    )
  })
}

/** Rounds with and without listeners in turn, so that a machine that slows down slows both. */
export async function listeners({ folder, report, requests }: Reporting): Promise<void> {
  await onSite(folder, BUSY, async (url) => {
    await withConnections(url, 2, requests(60, 20, 'warm'))
    const medians = { with: [] as number[], without: [] as number[] }
    let day = 40
    for (let round = 0; round < 6; round += 1) {
      for (const kind of ['without', 'with'] as const) {
        const listening = kind === 'with' ? await listen(url, 200) : null
        const { milliseconds } = await withConnections(url, 1, requests(36, day, `${kind}${round}-`))
        day += 6
        // The first round warms up.
        if (round > 0) medians[kind].push(quantile(milliseconds, 0.5))
        listening?.kill()
      }
    }
    const middle = (values: number[]) =>
      quantile(
        [...values].sort((a, b) => a - b),
        0.5,
      )
    const ratio = middle(medians.with) / middle(medians.without)
    report(
      'a booking with 200 listeners against none, medians of 5 rounds each',
      `${ms(middle(medians.with))} against ${ms(middle(medians.without))} = ${ratio.toFixed(2)}`,
      'ratio ≤ 1.10',
      ratio <= 1.1,
    )
  })
}

/** In a process of their own: reading is not the service's work. */
async function listen(url: string, count: number): Promise<ChildProcess> {
  const child = spawn(
    process.execPath,
    [path.join(root, 'bench', 'listeners.mjs'), url, String(count), SIGNED_IN.authorization],
    {
      stdio: ['ignore', 'pipe', 'inherit'],
    },
  )
  await new Promise<void>((resolve) => child.stdout?.once('data', () => resolve()))
  return child
}

async function onSite(
  folder: string,
  pattern: DayPattern,
  use: (url: string) => Promise<void>,
): Promise<void> {
  const file = path.join(folder, `whole-${performance.now()}.sqlite`)
  await fillBusySite(file, BOOKINGS, pattern)
  const service = await localService(file)
  try {
    await use(service.url)
  } finally {
    await service.stop()
    rmSync(file, { force: true })
  }
}
