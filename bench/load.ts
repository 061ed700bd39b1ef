/** Load from this process on a service on this machine: at a fixed rate, or as fast as so many connections go. */
import { SIGNED_IN } from './signed-in.ts'

export interface Asked {
  readonly path: string
  readonly body: unknown
}
export interface LoadResult {
  /** Sorted, each from the moment it should have been sent until the whole answer was there. */
  readonly milliseconds: readonly number[]
  readonly countByStatus: Readonly<Record<string, number>>
  readonly seconds: number
}

/** Open loop: requests go out on time whether or not earlier ones were answered. */
export async function atRate(url: string, perSecond: number, asked: readonly Asked[]): Promise<LoadResult> {
  const began = performance.now()
  const statuses: number[] = []
  const milliseconds = await Promise.all(
    asked.map(async (one, index) => {
      const dueAt = began + (index * 1000) / perSecond
      await new Promise((resolve) => setTimeout(resolve, Math.max(0, dueAt - performance.now())))
      statuses.push((await send(url, one)).status)
      return performance.now() - dueAt
    }),
  )
  return result(milliseconds, statuses, began)
}

/**
 * Closed loop: each connection sends its next request when the last one is answered.
 * @param look  is shown each answer once its time is taken
 */
export async function withConnections(
  url: string,
  connections: number,
  asked: readonly Asked[],
  look: (status: number, body: string) => void = () => {},
): Promise<LoadResult> {
  const began = performance.now()
  const statuses: number[] = []
  const milliseconds: number[] = []
  let next = 0
  const connection = async () => {
    for (let one = asked[next++]; one; one = asked[next++]) {
      const sentAt = performance.now()
      const { status, body } = await send(url, one)
      milliseconds.push(performance.now() - sentAt)
      statuses.push(status)
      look(status, body)
    }
  }
  await Promise.all(Array.from({ length: connections }, connection))
  return result(milliseconds, statuses, began)
}

async function send(url: string, { path, body }: Asked): Promise<{ status: number; body: string }> {
  const answer = await fetch(url + path, {
    method: 'POST',
    headers: { 'content-type': 'application/json', ...SIGNED_IN },
    body: JSON.stringify(body),
  })
  return { status: answer.status, body: await answer.text() }
}

function result(milliseconds: readonly number[], statuses: readonly number[], began: number): LoadResult {
  const countByStatus: Record<string, number> = {}
  for (const status of statuses) countByStatus[status] = (countByStatus[status] ?? 0) + 1
  return {
    milliseconds: [...milliseconds].sort((a, b) => a - b),
    countByStatus,
    seconds: (performance.now() - began) / 1000,
  }
}

/** @param share  0 to 1 @returns the smallest value that so many do not exceed; NaN for none */
export function quantile(sorted: readonly number[], share: number): number {
  return sorted[Math.min(sorted.length - 1, Math.max(0, Math.ceil(share * sorted.length) - 1))] ?? Number.NaN
}
