/** A process of its own that decides: a question a line comes in, the decision on it goes out, as JSON. */
import { createInterface } from 'node:readline'
import { decide } from '../../../../src/scheduler/decide/index.ts'

for await (const line of createInterface({ input: process.stdin })) {
  const { snapshot, operations } = JSON.parse(line)
  process.stdout.write(`${JSON.stringify(decide(snapshot, operations))}\n`)
}
