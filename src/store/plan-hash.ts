/** The fingerprint of a plan: the audit keeps it in place of the plan. */
import { createHash } from 'node:crypto'
import { Plan } from '../domain/plan.ts'

/** SHA-256 in hex of the plan as JSON, its fields in the order of the schema: the order they came in does not matter. */
export const planHash = (plan: Plan): string => hashOfParsedPlan(Plan.parse(plan))

/** The same for a plan that has just come out of its schema. */
export const hashOfParsedPlan = (plan: Plan): string =>
  createHash('sha256').update(JSON.stringify(plan)).digest('hex')
