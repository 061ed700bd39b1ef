/** The decider that it is put around decides; this only keeps what each request was, and on what it was decided. */
import type { Operation } from '../../src/domain/operation.ts'
import type { DecideAnswer, Decider } from '../../src/worker/decider.ts'

export interface Decided {
  readonly operations: readonly Operation[]
  readonly answer: DecideAnswer
}

/** By the name under which a request goes, what it was decided as, oldest first: it is decided anew where others were faster. */
export type Decisions = ReadonlyMap<string, readonly Decided[]>

export function recordingDecider(decider: Decider, record: Map<string, Decided[]>): Decider {
  return {
    ...boundTo(decider),
    async decide(request) {
      const answer = await decider.decide(request)
      const name = nameOf(request.operations)
      record.set(name, [...(record.get(name) ?? []), { operations: request.operations, answer }])
      return answer
    },
  }
}

const boundTo = (decider: Decider): Decider => ({
  decide: (request) => decider.decide(request),
  estimate: (request) => decider.estimate(request),
  replan: (request) => decider.replan(request),
  aroundTurn: (request) => decider.aroundTurn(request),
  isReady: () => decider.isReady(),
  close: () => decider.close(),
})

/** Each request names what it writes: a booking by its title, a closure by its reason, a shift by its own name. */
export function nameOf([operation]: readonly Operation[]): string {
  switch (operation?.kind) {
    case 'book':
    case 'change':
      return operation.booking.title
    case 'cancel':
      return nameOfEnding(operation.bookingId)
    case 'set-up': {
      const [write] = operation.writes
      if (write?.retire) return nameOfEnding(write.after.id)
      if (write?.kind === 'closure') return write.after.reason
      if (write?.kind === 'shift') return write.after.name
      return `${write?.kind} ${write?.after.id}`
    }
    default:
      return ''
  }
}

/** The end of a booking, or of a closure: it comes once. */
export const nameOfEnding = (id: string): string => `end of ${id}`
