/** What the main thread and the thread that decides say to each other. */
import type { TimeByHands } from '../scheduler/decide/index.ts'
import type { AroundTurnReply, AroundTurnRequest } from './around-turn.ts'
import type { DecideAnswer, DecideRequest, EstimateRequest, ReplanReply, ReplanRequest } from './decider.ts'

/** What can be asked, each with what it is answered. */
export type Question =
  | { readonly kind: 'decide'; readonly request: DecideRequest }
  | { readonly kind: 'estimate'; readonly request: EstimateRequest }
  | { readonly kind: 'replan'; readonly request: ReplanRequest }
  | { readonly kind: 'around-turn'; readonly request: AroundTurnRequest }
export type QuestionAnswer =
  | { readonly kind: 'decide'; readonly answer: DecideAnswer }
  | { readonly kind: 'estimate'; readonly answer: readonly TimeByHands[] }
  | { readonly kind: 'replan'; readonly answer: ReplanReply }
  | { readonly kind: 'around-turn'; readonly answer: AroundTurnReply }

export interface ThreadRequest {
  readonly id: number
  readonly question: Question
}

export type ThreadReply =
  | { readonly kind: 'ready' }
  | { readonly kind: 'answer'; readonly id: number; readonly answer: QuestionAnswer }
  /** A bug, or DeciderBusy, while this request was decided; the thread goes on. */
  | { readonly kind: 'failed'; readonly id: number; readonly busy: boolean; readonly error: Error }

/** Both ends are this program: that it is a message at all is enough to know which. */
export const isThreadRequest = (value: unknown): value is ThreadRequest =>
  typeof value === 'object' && value !== null && 'question' in value
export const isThreadReply = (value: unknown): value is ThreadReply =>
  typeof value === 'object' && value !== null && 'kind' in value
