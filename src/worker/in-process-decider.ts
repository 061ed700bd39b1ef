/** Decides in the thread it is called in: for tests and commands. A service would stand still meanwhile. */
import { timeByHands } from '../scheduler/decide/index.ts'
import type { Store } from '../store/store.ts'
import { aroundTurn } from './around-turn.ts'
import { answerTo } from './decide-request.ts'
import type { Decider } from './decider.ts'
import { replanReply } from './replan-request.ts'
import { solvedBefore } from './solved-before.ts'

/** The store stays the caller's: closing the decider leaves it open. */
export function inProcessDecider(store: Store): Decider {
  const solver = solvedBefore()
  return {
    decide: (request) => answerTo(store, request),
    estimate: async ({ network, hands, workMost }) => timeByHands(network, hands, workMost),
    replan: (request) => replanReply(store, request),
    aroundTurn: (request) => aroundTurn(store, request, solver),
    isReady: () => true,
    close: async () => {},
  }
}
