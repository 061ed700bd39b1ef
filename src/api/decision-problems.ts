/** A "no" of the scheduler as a problem, and what it finds wrong with what was asked. */
import type { DecisionAnswer } from '../domain/decision.ts'
import type { Operation } from '../domain/operation.ts'
import { speaksAgainst } from '../domain/reason.ts'
import { riskInWords } from '../scheduler/decide/index.ts'
import { listText } from '../scheduler/wording/list-text.ts'
import type { OperationProblem } from '../worker/decider.ts'
import { bodyFault, invalidInput, Problem, type ProblemSlug } from './problems.ts'
import { wire } from './wire.ts'

/** Where a risk was to be taken it says what stands against that. */
export function doesNotFit(
  decision: DecisionAnswer,
  operations: readonly Operation[],
  zone: string,
): Problem {
  const sentences = [...decision.reasons, ...decision.alternatives.slice(0, 1)].map(({ message }) => message)
  const firm = decision.reasons.filter((reason) => speaksAgainst(reason) && !reason.overridable)
  if (operations.some(takesRisk) && firm.length > 0) {
    const what = [...new Set(firm.map(riskInWords))].map((words) => `that ${words}`)
    sentences.push(`Nobody may take the risk ${listText(what, 'or')}.`)
  }
  return new Problem('does-not-fit', sentences.join(' '), { decision: wire(decision, zone) })
}

const takesRisk = (operation: Operation): boolean =>
  'booking' in operation && operation.booking.riskAccepted !== null

/** Those that have a problem type of the same name. */
const problemsByName: readonly (OperationProblem['code'] & ProblemSlug)[] = [
  'version-mismatch',
  'already-begun',
  'already-cancelled',
  'hold-is-over',
  'not-a-hold',
  'not-linked',
]

/** @param problems  at least one; what has no type of its own is wrong with the input */
export function operationProblem(problems: readonly OperationProblem[]): Problem {
  for (const { code, message } of problems) {
    const slug = problemsByName.find((name) => name === code)
    if (slug) return new Problem(slug, message)
  }
  return invalidInput(problems.map(({ at, message }) => bodyFault(at, message)))
}
