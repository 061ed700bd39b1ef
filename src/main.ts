/** Reads the configuration, wires the parts, listens, and stops in order when told to. */
import { mkdirSync } from 'node:fs'
import path from 'node:path'
import { loadDemo } from '../seed/load-demo.ts'
import { buildApp } from './api/app.ts'
import { type Configuration, ConfigurationFault, configurationFrom } from './configuration.ts'
import { Instant } from './domain/instant.ts'
import { randomId } from './random-id.ts'
import { planFaults } from './scheduler/decide/index.ts'
import { startReport } from './start-report.ts'
import { DatabaseUnusable } from './store/open-sqlite-database.ts'
import { openSqliteStore } from './store/open-sqlite-store.ts'
import type { Commit } from './store/store.ts'
import { threadDecider } from './worker/thread-decider.ts'

const clock = (): Instant => Instant.parse(Date.now())

/** The last look before anything is written, by code that shares nothing with what made the plans. */
const commitFaults = (commit: Commit): string[] =>
  (commit.changes?.turns ?? []).flatMap((change) => planFaults(change.after))

async function serve(configuration: Configuration): Promise<void> {
  const { databaseFile, demo, host, logLevel, port } = configuration
  // The default lies in a folder of its own, which a fresh clone does not have.
  mkdirSync(path.dirname(databaseFile), { recursive: true })
  const store = await openSqliteStore({ file: databaseFile, validateBeforeCommit: commitFaults })
  const decider = await threadDecider({ file: databaseFile })
  const sites = await store.sites({ limit: 1, after: null })
  const loaded = demo && sites.items.length === 0 ? await loadDemo(store, decider, clock()) : null
  const log = { level: logLevel }
  const app = buildApp({ store, decider, clock, newId: randomId, log, configuration })
  const report = await startReport(store, clock())
  const address = await app.listen({ port, host })
  console.log(`\nTurnwright answers at ${address}\n`)
  console.log(report)
  for (const { booking, decision } of loaded?.bookings ?? []) {
    if (decision.verdict !== 'does-not-fit') continue
    const sentences = [...decision.reasons, ...decision.alternatives].map((one) => one.message)
    console.log(`\nRefused while loading: ${booking.title}. ${sentences.join(' ')}`)
  }
  console.log(`\nDatabase: ${databaseFile}. Stop with Ctrl+C.`)

  let stopping = false
  const stop = async (): Promise<void> => {
    if (stopping) return
    stopping = true
    // No new requests, then no more deciding, then the file: each may still need the next.
    await app.close()
    await decider.close()
    store.close()
  }
  for (const signal of ['SIGTERM', 'SIGINT'] as const) process.on(signal, () => void stop())
}

/** What whoever starts the service can mend; null: a bug. */
function inWords(fault: unknown): string | null {
  if (fault instanceof ConfigurationFault || fault instanceof DatabaseUnusable) return fault.message
  const code = fault instanceof Error && 'code' in fault ? fault.code : null
  if (code === 'EADDRINUSE')
    return 'The port is taken: stop what listens there, or set PORT to another (0: any free one).'
  if (code === 'EACCES')
    return `This user may not do that: ${(fault as Error).message}. Set PORT or DATABASE_FILE to others.`
  return null
}

try {
  await serve(configurationFrom(process.env))
} catch (fault) {
  const message = inWords(fault)
  if (message === null) throw fault
  console.error(message)
  // The thread that decides may be running already, and would keep the process alive.
  process.exit(1)
}
