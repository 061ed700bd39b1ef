/** What the thread that decides can be asked. Reads from the store; writes nothing. */
import { timeByHands } from '../scheduler/decide/index.ts'
import type { Store } from '../store/store.ts'
import { aroundTurn } from './around-turn.ts'
import { answerTo } from './decide-request.ts'
import { replanReply } from './replan-request.ts'
import { solvedBefore } from './solved-before.ts'
import type { Question, QuestionAnswer } from './thread-messages.ts'

/** Of the thread: it answers one question after the other. */
const solver = solvedBefore()

/** @throws DeciderBusy when the site does not stand still for long enough to be read */
export async function answerQuestion(store: Store, question: Question): Promise<QuestionAnswer> {
  if (question.kind === 'decide') return { kind: 'decide', answer: await answerTo(store, question.request) }
  if (question.kind === 'replan')
    return { kind: 'replan', answer: await replanReply(store, question.request) }
  if (question.kind === 'around-turn')
    return { kind: 'around-turn', answer: await aroundTurn(store, question.request, solver) }
  const { network, hands, workMost } = question.request
  return { kind: 'estimate', answer: timeByHands(network, hands, workMost) }
}
