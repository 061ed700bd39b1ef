/** What the main thread and the thread that decides say to each other. */
import type { DecideAnswer, DecideRequest } from './decider.ts'

export interface ThreadRequest {
  readonly id: number
  readonly request: DecideRequest
}

export type ThreadReply =
  | { readonly kind: 'ready' }
  | { readonly kind: 'answer'; readonly id: number; readonly answer: DecideAnswer }
  /** A bug, or DeciderBusy, while this request was decided; the thread goes on. */
  | { readonly kind: 'failed'; readonly id: number; readonly busy: boolean; readonly error: Error }

/** Both ends are this program: that it is a message at all is enough to know which. */
export const isThreadRequest = (value: unknown): value is ThreadRequest =>
  typeof value === 'object' && value !== null && 'request' in value
export const isThreadReply = (value: unknown): value is ThreadReply =>
  typeof value === 'object' && value !== null && 'kind' in value
