import { type SetupKind, type SetupRows, type SetupWrite, SetupWriteSchema } from '../../domain/setup.ts'

/** One write as the core and the store take it. Parsed, because the compiler cannot tie a kind to its row by itself. */
export const setupWrite = <Kind extends SetupKind>(
  kind: Kind,
  before: SetupRows[Kind] | null,
  after: SetupRows[Kind],
  retire: boolean,
): SetupWrite => SetupWriteSchema.parse({ kind, before, after, retire })
