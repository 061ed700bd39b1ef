/** Where the thread that decides begins: its own read-only connection, then requests until it is stopped. */
import { parentPort, workerData } from 'node:worker_threads'
import { z } from 'zod'
import { openSqliteStore } from '../store/open-sqlite-store.ts'
import { answerQuestion } from './answer-question.ts'
import { serveDecisions } from './serve-decisions.ts'

if (!parentPort) throw new Error('This file is the start of a worker thread')
const { file } = z.object({ file: z.string() }).parse(workerData)
const store = await openSqliteStore({ file, readOnly: true })
serveDecisions(parentPort, (question) => answerQuestion(store, question))
