/** The thread that decides, except that it stops at a booking titled "Fall over", throws at "A bug" and broods over "Never". */
import { parentPort, workerData } from 'node:worker_threads'
import { z } from 'zod'
import { openSqliteStore } from '../../src/store/open-sqlite-store.ts'
import { answerQuestion } from '../../src/worker/answer-question.ts'
import { serveDecisions } from '../../src/worker/serve-decisions.ts'
import type { Question } from '../../src/worker/thread-messages.ts'

if (!parentPort) throw new Error('This file is the start of a worker thread')
const store = await openSqliteStore({
  file: z.object({ file: z.string() }).parse(workerData).file,
  readOnly: true,
})

function titleOf(question: Question): string | null {
  const [operation] = question.kind === 'decide' ? question.request.operations : []
  return operation?.kind === 'book' ? operation.booking.title : null
}

serveDecisions(parentPort, async (question) => {
  if (titleOf(question) === 'Fall over') process.exit(1)
  if (titleOf(question) === 'A bug') throw new TypeError('a bug in the code that decides')
  if (titleOf(question) === 'Never') return new Promise(() => {})
  return answerQuestion(store, question)
})
