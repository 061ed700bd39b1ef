/** The service while its thread works on more than anybody should ask of it. */
import path from 'node:path'
import { expect, onTestFinished, test } from 'vitest'
import type { TaskNetwork } from '../../src/domain/task.ts'
import { taskNetwork } from '../../src/scheduler/network/index.ts'
import type { Decider } from '../../src/worker/decider.ts'
import { aServiceOnFile } from '../life/a-service-on-file.ts'
import { gamesToBanquet } from '../scheduler/network/golden-turns/games-to-banquet.ts'
import { aFolder } from '../store/a-database-file.ts'

/** The work of a golden turn over and over, all with the same tools. */
function manyTimes(network: TaskNetwork, taskCount: number): TaskNetwork {
  const { tasks } = network
  const copies = Array.from({ length: Math.ceil(taskCount / tasks.length) }, (_, copy) =>
    tasks.map((task) => ({
      ...task,
      key: `${task.key}/${copy}`,
      after: task.after.map((key) => `${key}/${copy}`),
    })),
  )
  return { ...network, tasks: copies.flat().slice(0, taskCount) }
}

test('the service says that it is alive while a turn of 2,000 tasks is planned', async () => {
  const deciders: Decider[] = []
  const service = await aServiceOnFile(path.join(aFolder(), 'hall.sqlite'), (decider) => {
    deciders.push(decider)
    return decider
  })
  onTestFinished(() => service.stop())
  const [decider] = deciders
  if (!decider) throw new Error('nothing decides')
  const network = manyTimes(taskNetwork(gamesToBanquet.input), 2_000)
  let answer: Awaited<ReturnType<Decider['estimate']>> | null = null
  const planning = decider.estimate({ network, hands: [20], workMost: 60 }).then((timeByHands) => {
    answer = timeByHands
  })
  let aliveMeanwhile = 0
  while (answer === null) {
    const { status } = await fetch(`${service.url}/healthz`)
    expect(status).toBe(200)
    if (answer === null) aliveMeanwhile += 1
    else await planning
  }
  expect(aliveMeanwhile).toBeGreaterThanOrEqual(5)
  expect(answer).toEqual([{ hands: 20, seconds: expect.any(Number) }])
})
