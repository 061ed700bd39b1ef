/** What a rule gives: a finding without its weight, which follows from the code. */
import type { Finding } from '../../domain/finding.ts'
import type { SetupKind } from '../../domain/setup.ts'
import type { SetupReading } from './setup-reading.ts'

export type Found = Omit<Finding, 'weight'>
export type Rule = (reading: SetupReading) => Found[]

export const aboutRow = (
  kind: SetupKind,
  row: { readonly id: string; readonly name: string },
): Finding['about'] => ({ kind, id: row.id, name: row.name })
