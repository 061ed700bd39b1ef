/** Reads the configuration, wires the parts, listens, and stops in order when told to. */
import { lacksDemo, loadDemo } from '../seed/load-demo.ts'
import { mailBySmtp, mailToLog } from './accounts/mail.ts'
import { setUpLink } from './accounts/one-time-links.ts'
import { KeyUnusable, keyFileOf, secretKeyIn } from './accounts/secret-key-file.ts'
import { secretsUnder } from './accounts/secrets.ts'
import { buildApp } from './api/app.ts'
import { lapseExpired } from './api/lapse-holds.ts'
import { SiteQueue, WRITERS_WAITING_MOST } from './api/site-queue.ts'
import { background } from './background/background.ts'
import { type Configuration, ConfigurationFault, configurationFrom } from './configuration.ts'
import { Instant } from './domain/instant.ts'
import { orderlyClose } from './orderly-close.ts'
import { randomId } from './random-id.ts'
import { planFaults } from './scheduler/decide/index.ts'
import { startReport } from './start-report.ts'
import { DatabaseUnusable, makeFolderFor } from './store/open-sqlite-database.ts'
import { openSqliteStore } from './store/open-sqlite-store.ts'
import type { Commit } from './store/store.ts'
import { takeDatabase } from './store/take-database.ts'
import { threadDecider } from './worker/thread-decider.ts'

const clock = (): Instant => Instant.parse(Date.now())

/** The last look before anything is written, by code that shares nothing with what made the plans. */
const commitFaults = (commit: Commit): string[] =>
  (commit.changes?.turns ?? []).flatMap((change) => planFaults(change.after))

async function serve(configuration: Configuration): Promise<void> {
  const { databaseFile, demo, host, logLevel, mailFrom, port, publicUrl, smtpUrl } = configuration
  // The default lies in a folder of its own, which a fresh clone does not have.
  makeFolderFor(databaseFile)
  const taken = takeDatabase(databaseFile)
  const store = await openSqliteStore({ file: databaseFile, validateBeforeCommit: commitFaults })
  const decider = await threadDecider({ file: databaseFile })
  const loaded = demo && (await lacksDemo(store)) ? await loadDemo(store, decider, clock()) : null
  const log = { level: logLevel }
  const queue = new SiteQueue(WRITERS_WAITING_MOST)
  const batchDecider = await threadDecider({ file: databaseFile, name: 'batch' })
  const secretKey = secretKeyIn(keyFileOf(databaseFile))
  const mail = smtpUrl === null ? mailToLog(console.log) : mailBySmtp(smtpUrl, mailFrom)
  const parts = {
    store,
    decider,
    batchDecider,
    clock,
    newId: randomId,
    log,
    configuration,
    queue,
    secretKey,
    mail,
  }
  const app = buildApp(parts)
  const own = background({
    store,
    decider: batchDecider,
    clock,
    inTurn: (siteId, work) => queue.run(siteId, work),
    lapse: (siteId) => lapseExpired({ store, decider: batchDecider, clock }, siteId),
    quietMilliseconds: QUIET_MILLISECONDS,
    onFault: (fault) => console.error('In the background:', fault),
  })
  const closeApp = orderlyClose(app)
  const report = await startReport(store, clock())
  const address = await app.listen({ port, host })
  // Before it says that it can be stopped.
  own.run()
  stopOnSignals(async () => {
    // No new requests, then no more deciding, then the file, then whoever waits for it: each may still need the next.
    await Promise.all([closeApp(), own.stop()])
    await Promise.all([decider.close(), batchDecider.close()])
    store.close()
    taken.release()
  })
  console.log(`\nTurnwright answers at ${publicUrl ?? address}\n`)
  const link = await setUpLink({
    store: store.accounts,
    secrets: secretsUnder(secretKey),
    mail,
    clock,
    newId: randomId,
    publicUrl: () => publicUrl ?? address,
  })
  if (link !== null)
    console.log(`Nobody has an account yet. Within a day this link makes the first one, once:\n${link}\n`)
  console.log(report)
  for (const { booking, decision } of loaded?.bookings ?? []) {
    if (decision.verdict !== 'does-not-fit') continue
    const sentences = [...decision.reasons, ...decision.alternatives.slice(0, 1)].map((one) => one.message)
    console.log(`\nRefused while loading: ${booking.title}. ${sentences.join(' ')}`)
  }
  console.log(`\nDatabase: ${databaseFile}. Stop with Ctrl+C.`)
}

/** Plans are gone over when nobody has written for a minute: who books looks at what was answered first. */
const QUIET_MILLISECONDS = 60_000

/** One press of Ctrl+C may come twice, from the terminal and from npm: what comes sooner than this is the same. */
const SAME_SIGNAL_MILLISECONDS = 1_000

/** The first signal stops in order, a second one at once: whatever was acknowledged is on the disk either way. */
function stopOnSignals(stop: () => Promise<void>): void {
  let firstAt: number | null = null
  const onSignal = () => {
    if (firstAt === null) {
      firstAt = performance.now()
      console.log('Stopping: what is under way is answered first. A second signal stops at once.')
      void stop()
    } else if (performance.now() - firstAt > SAME_SIGNAL_MILLISECONDS) {
      console.error('Stopped at once.')
      process.exit(1)
    }
  }
  for (const signal of ['SIGTERM', 'SIGINT'] as const) process.on(signal, onSignal)
}

/** What whoever starts the service can mend; null: a bug. */
function inWords(fault: unknown): string | null {
  if (
    fault instanceof ConfigurationFault ||
    fault instanceof DatabaseUnusable ||
    fault instanceof KeyUnusable
  )
    return fault.message
  const code = fault instanceof Error && 'code' in fault ? fault.code : null
  if (code === 'EADDRINUSE')
    return 'The port is taken: stop what listens there, or set PORT to another (0: any free one).'
  if (code === 'EADDRNOTAVAIL')
    return 'This computer has no such address: set HOST to 127.0.0.1, localhost or ::1, one that it has.'
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
