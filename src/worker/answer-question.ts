/** What the thread that decides can be asked. Reads from the store; writes nothing. */
import { timeByHands } from '../scheduler/decide/index.ts'
import type { Store } from '../store/store.ts'
import { answerTo } from './decide-request.ts'
import type { Question, QuestionAnswer } from './thread-messages.ts'

/** @throws DeciderBusy when the site does not stand still for long enough to be read */
export async function answerQuestion(store: Store, question: Question): Promise<QuestionAnswer> {
  if (question.kind === 'decide') return { kind: 'decide', answer: await answerTo(store, question.request) }
  const { network, hands, workMost } = question.request
  return { kind: 'estimate', answer: timeByHands(network, hands, workMost) }
}
