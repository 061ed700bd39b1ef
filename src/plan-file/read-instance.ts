/** From the text of a file to what the solver solves. */
import { z } from 'zod'
import type { TurnInstance } from '../scheduler/turn/index.ts'
import { instanceProblems } from '../scheduler/turn/index.ts'
import { InputFault } from './input-fault.ts'
import { InstanceDocument } from './instance-document.ts'
import { instanceOfDocument } from './instance-of-document.ts'

export interface ReadInstance {
  readonly document: InstanceDocument
  /** Without problems (`instanceProblems`). Everything has the index it has in the document. */
  readonly instance: TurnInstance
}

/** @throws InputFault when it is no instance, or one that cannot be planned; the message names all that is wrong */
export function readInstance(text: string): ReadInstance {
  const document = documentIn(text)
  const instance = instanceOfDocument(document)
  const problems = instanceProblems(instance)
  if (problems.length > 0) throw new InputFault(`It cannot be planned:\n${problems.join('\n')}`)
  return { document, instance }
}

function documentIn(text: string): InstanceDocument {
  let parsed: unknown
  try {
    parsed = JSON.parse(text)
  } catch (error) {
    throw new InputFault(`It is not JSON: ${error instanceof Error ? error.message : ''}.`, { cause: error })
  }
  const read = InstanceDocument.safeParse(parsed)
  if (!read.success) throw new InputFault(`It is no turnwright-instance 1:\n${z.prettifyError(read.error)}`)
  return read.data
}
