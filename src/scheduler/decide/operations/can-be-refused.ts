/** What can be refused; the rest is as it is, and is written whatever follows from it. */
import type { Operation } from '../../../domain/operation.ts'

const refusable: ReadonlySet<Operation['kind']> = new Set(['book', 'hold', 'confirm', 'change', 'link'])

/** All of them together, where one of them can be. */
export const canBeRefused = (operations: readonly Operation[]): boolean =>
  operations.some(({ kind }) => refusable.has(kind))
