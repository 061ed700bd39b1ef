/** Decides in the thread it is called in: for tests and commands. A service would stand still meanwhile. */
import { timeByHands } from '../scheduler/decide/index.ts'
import type { Store } from '../store/store.ts'
import { answerTo } from './decide-request.ts'
import type { Decider } from './decider.ts'

/** The store stays the caller's: closing the decider leaves it open. */
export const inProcessDecider = (store: Store): Decider => ({
  decide: (request) => answerTo(store, request),
  estimate: async ({ network, hands, workMost }) => timeByHands(network, hands, workMost),
  isReady: () => true,
  close: async () => {},
})
