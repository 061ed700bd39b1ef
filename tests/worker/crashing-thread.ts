/** The thread that decides, except that it stops at a booking titled "Fall over", throws at "A bug" and broods over "Never". */
import { parentPort, workerData } from 'node:worker_threads'
import { z } from 'zod'
import { openSqliteStore } from '../../src/store/open-sqlite-store.ts'
import { answerTo } from '../../src/worker/decide-request.ts'
import type { DecideRequest } from '../../src/worker/decider.ts'
import { serveDecisions } from '../../src/worker/serve-decisions.ts'

if (!parentPort) throw new Error('This file is the start of a worker thread')
const store = await openSqliteStore({
  file: z.object({ file: z.string() }).parse(workerData).file,
  readOnly: true,
})

const titleOf = ({ operations: [operation] }: DecideRequest) =>
  operation?.kind === 'book' && operation.booking.title

serveDecisions(parentPort, async (request) => {
  if (titleOf(request) === 'Fall over') process.exit(1)
  if (titleOf(request) === 'A bug') throw new TypeError('a bug in the code that decides')
  if (titleOf(request) === 'Never') return new Promise(() => {})
  return answerTo(store, request)
})
