/** The fingerprint of a plan: the audit keeps it in place of the plan. */
import { createHash } from 'node:crypto'
import type { Plan } from '../domain/plan.ts'

/** @param plan  out of its schema, which puts its fields in order @returns SHA-256 in hex of the plan as JSON */
export const planHash = (plan: Plan): string => planTextHash(JSON.stringify(plan))

/** @param text  the plan as JSON, as it was stored: schemas may have learned more fields since */
export const planTextHash = (text: string): string => createHash('sha256').update(text).digest('hex')
