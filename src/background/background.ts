/**
 * What the service does by itself between requests: it gives up holds that are over, looks at turns again that a change
 * of the hall left stale, nearest doors first, looks for ways out where a turn fails, and goes over plans at leisure.
 * It decides in a thread of its own and takes its place in the queue of writers only to write.
 */
import { ActorId, type SiteId } from '../domain/ids.ts'
import type { Instant } from '../domain/instant.ts'
import { type Commit, Conflict, type Page, type Store } from '../store/store.ts'
import { type Decider, DeciderBusy } from '../worker/decider.ts'
import { JudgeWork } from './judge-work.ts'
import { PolishWork } from './polish-work.ts'
import { QuietSites } from './quiet-sites.ts'
import { findWaysOut } from './ways-out-work.ts'
import type { Step, WorkParts } from './work-parts.ts'

export interface BackgroundParts {
  readonly store: Store
  /** Not the one that answers requests. */
  readonly decider: Pick<Decider, 'decide'>
  readonly clock: () => Instant
  /** Waits for the site's other writers, then runs. */
  readonly inTurn: <Result>(siteId: SiteId, work: () => Promise<Result>) => Promise<Result>
  /** Gives up holds of a site that are over, in turn. @returns how many */
  readonly lapse: (siteId: SiteId) => Promise<number>
  /** Plans are left alone for so long after the last write: whoever books looks at what was answered first. */
  readonly quietMilliseconds: number
  /** What went wrong; it goes on with the next thing. */
  readonly onFault: (fault: unknown) => void
}

export interface Background {
  /** Does all that is to be done now. @returns how many times something was written */
  untilIdle(): Promise<number>
  /** Goes on until stopped: after each commit, when a hold runs out, and once a minute. */
  run(): void
  /** What is being written is written; what is being decided is left. */
  stop(): Promise<void>
}

/** Without any commit it looks for something to do so often. */
const LOOK_AGAIN_MILLISECONDS = 60_000
/** Between two looks: requests come first. */
const PAUSE_MILLISECONDS = 50
const SITES_A_PAGE = 50
/** Something is wrong where it never ends: the rest is left to the next look then. */
const STEPS_MOST = 10_000
/** So often in a row somebody else may be faster before it is left to the next look. */
const CONFLICTS_MOST = 5

/** Who wrote it, in the audit. */
const planner = ActorId.parse('actor_planner')

/** It was told to stop while something was being decided. */
class Stopped extends Error {}

export function background(parts: BackgroundParts): Background {
  const { store, clock } = parts
  const stopping = new AbortController()
  const quiet = new QuietSites(parts.quietMilliseconds)
  const workParts: WorkParts = { store, clock, decider: { decide: decideUnlessStopped }, commit }
  const judging = new JudgeWork(workParts)
  const polishing = new PolishWork(workParts)
  let isRunning = false
  let isAskedAgain = false
  let working: Promise<unknown> | null = null
  let timer: NodeJS.Timeout | undefined

  const unsubscribe = store.onCommit(() => {
    if (working) isAskedAgain = true
    else if (isRunning) wakeAfter(PAUSE_MILLISECONDS)
  })

  async function untilIdle(): Promise<number> {
    let writes = 0
    for (let step = 0; step < STEPS_MOST && !stopping.signal.aborted; step += 1) {
      const siteIds = await allSites(store)
      for (const siteId of siteIds) await lookAt(siteId)
      for (const siteId of siteIds) writes += await whatCannotWait(siteId)
      // One of the rest, and then what cannot wait once more.
      const steps: Step[] = []
      for (const siteId of siteIds) steps.push(await atLeisure(siteId))
      writes += steps.filter((one) => one === 'wrote').length
      if (steps.every((one) => one === 'idle')) break
    }
    return writes
  }

  async function lookAt(siteId: SiteId): Promise<void> {
    const version = await store.planningVersion(siteId)
    if (version !== null) quiet.look(siteId, version, clock())
  }

  async function whatCannotWait(siteId: SiteId): Promise<number> {
    let writes = 0
    for (let step = 0; step < STEPS_MOST; step += 1) {
      const lapsed = await attempted(async () =>
        (await parts.inTurn(siteId, () => parts.lapse(siteId))) > 0 ? 'wrote' : 'idle',
      )
      const judged = await attempted(() => judging.step(siteId))
      writes += [lapsed, judged].filter((one) => one === 'wrote').length
      if (lapsed === 'idle' && judged === 'idle') break
    }
    return writes
  }

  async function atLeisure(siteId: SiteId): Promise<Step> {
    const waysOut = await attempted(() => findWaysOut(workParts, siteId))
    if (waysOut !== 'idle' || !quiet.isQuiet(siteId, clock())) return waysOut
    return attempted(() => polishing.step(siteId))
  }

  /** `idle` too where it cannot be done now: another look comes, at the latest in a minute. */
  async function attempted(work: () => Promise<Step>): Promise<Step> {
    for (let attempt = 1; attempt <= CONFLICTS_MOST && !stopping.signal.aborted; attempt += 1) {
      try {
        return await work()
      } catch (fault) {
        if (fault instanceof Conflict) continue
        if (!(fault instanceof Stopped || fault instanceof DeciderBusy)) parts.onFault(fault)
        return 'idle'
      }
    }
    return 'idle'
  }

  function commit(one: Omit<Commit, 'actorId'>): Promise<void> {
    return parts.inTurn(one.siteId, async () => {
      const version = await store.commit({ ...one, actorId: planner })
      quiet.ownWrite(one.siteId, one.planningVersionExpected, version)
    })
  }

  function decideUnlessStopped(...[request]: Parameters<Decider['decide']>): ReturnType<Decider['decide']> {
    const { signal } = stopping
    return new Promise((resolve, reject) => {
      const stop = () => reject(new Stopped())
      if (signal.aborted) return stop()
      signal.addEventListener('abort', stop, { once: true })
      const decided = parts.decider.decide(request).finally(() => signal.removeEventListener('abort', stop))
      decided.then(resolve, reject)
    })
  }

  /** Again when something was written meanwhile, when a hold runs out or a site is quiet, and at the latest in a minute. */
  async function waitMilliseconds(): Promise<number> {
    const now = clock()
    const holdAt = await store.nextHoldExpiry(now)
    const waits = [holdAt === null ? null : holdAt - now, quiet.soonestQuietMilliseconds(now)]
    return Math.min(LOOK_AGAIN_MILLISECONDS, ...waits.filter((wait) => wait !== null))
  }

  async function work(): Promise<void> {
    isAskedAgain = false
    let wait = LOOK_AGAIN_MILLISECONDS
    try {
      await untilIdle()
      wait = await waitMilliseconds()
    } catch (fault) {
      parts.onFault(fault)
    }
    working = null
    wakeAfter(isAskedAgain ? PAUSE_MILLISECONDS : Math.max(PAUSE_MILLISECONDS, wait))
  }

  function wakeAfter(milliseconds: number): void {
    clearTimeout(timer)
    if (stopping.signal.aborted) return
    timer = setTimeout(() => {
      working = work()
    }, milliseconds).unref()
  }

  return {
    untilIdle,
    run() {
      isRunning = true
      wakeAfter(0)
    },
    async stop() {
      stopping.abort()
      clearTimeout(timer)
      unsubscribe()
      await working
    },
  }
}

async function allSites(store: Store): Promise<SiteId[]> {
  const ids: SiteId[] = []
  let after: string | null = null
  do {
    const page: Page<{ readonly id: SiteId }> = await store.sites({ limit: SITES_A_PAGE, after })
    ids.push(...page.items.map(({ id }) => id))
    after = page.nextAfter
  } while (after !== null)
  return ids
}
