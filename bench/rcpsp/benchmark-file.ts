/**
 * Files of benchmark instances: resource-constrained projects with one or several modes, as a JSON array. A task occupies
 * [start, start + duration); the makespan is the latest end.
 */
import { z } from 'zod'
import { fileText } from '../../src/plan-file/file-text.ts'
import { InputFault } from '../../src/plan-file/input-fault.ts'

const Whole = z.int().min(0)

const BenchmarkInstance = z.object({
  name: z.string(),
  /** Capacity of each renewable resource, the same all the time. */
  resources: z.array(Whole),
  /** For the whole project. */
  nonrenewable: z.array(Whole).default([]),
  tasks: z.array(
    z.object({
      modes: z
        .array(
          z.object({
            duration: Whole,
            /** One for each renewable resource. */
            uses: z.array(Whole),
            /** One for each nonrenewable one. */
            consumes: z.array(Whole).default([]),
          }),
        )
        .min(1),
      /** Indices of tasks. */
      successors: z.array(Whole),
    }),
  ),
  /** The shortest makespan that was published. */
  bestKnown: Whole.nullable().default(null),
  /** null: not known. */
  optimum: Whole.nullable().default(null),
  /** The critical path of the shortest modes, as published. */
  cpLowerBound: Whole.nullable().default(null),
})
export type BenchmarkInstance = z.infer<typeof BenchmarkInstance>

/** What one entry of the file is: an instance, or what is wrong with it. */
export type BenchmarkEntry = BenchmarkInstance | { readonly name: string; readonly fault: string }

/** @throws InputFault when the file cannot be read, or is no list of JSON */
export function benchmarkFile(file: string): BenchmarkEntry[] {
  const text = fileText(file)
  let parsed: unknown
  try {
    parsed = JSON.parse(text)
  } catch (error) {
    const why = error instanceof Error ? error.message : ''
    throw new InputFault(`${file} is not JSON: ${why}.`, { cause: error })
  }
  if (!Array.isArray(parsed)) throw new InputFault(`${file} is no list of benchmark instances.`)
  return parsed.map((one: unknown, index): BenchmarkEntry => {
    const read = BenchmarkInstance.safeParse(one)
    if (read.success) return read.data
    const named = z.object({ name: z.string() }).safeParse(one)
    const name = named.success ? named.data.name : `entry ${index}`
    return { name, fault: `${name} is no benchmark instance: ${z.prettifyError(read.error)}` }
  })
}
