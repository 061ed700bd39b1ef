/** The loop of the thread that decides: one request after the other, in the order in which they came. */
import type { MessagePort } from 'node:worker_threads'
import { DeciderBusy } from './decider.ts'
import { isThreadRequest, type Question, type QuestionAnswer, type ThreadReply } from './thread-messages.ts'

export function serveDecisions(
  port: MessagePort,
  answerTo: (question: Question) => Promise<QuestionAnswer>,
): void {
  const say = (reply: ThreadReply) => port.postMessage(reply)
  let last: Promise<void> = Promise.resolve()

  async function answer(id: number, question: Question): Promise<void> {
    try {
      say({ kind: 'answer', id, answer: await answerTo(question) })
    } catch (error) {
      const asError = error instanceof Error ? error : new Error(String(error))
      say({ kind: 'failed', id, busy: error instanceof DeciderBusy, error: asError })
    }
  }

  port.on('message', (message: unknown) => {
    if (!isThreadRequest(message)) throw new Error('The thread that decides understands requests only')
    last = last.then(() => answer(message.id, message.question))
  })
  say({ kind: 'ready' })
}
