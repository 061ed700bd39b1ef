import { HelpAsked } from './help-asked.ts'
import { InputFault } from './input-fault.ts'

/** What a command prints when it cannot go on, and what it ends with: 0 after help, 2 after a fault. */
export function endedBy(thrown: unknown): number {
  if (thrown instanceof HelpAsked) {
    console.log(thrown.message)
    return 0
  }
  if (!(thrown instanceof InputFault)) throw thrown
  console.error(thrown.message)
  return 2
}
