/**
 * What one client has been told of its own bookings and people, and what it had sent when the service died: enough to say
 * later whether everything that was acknowledged is there as it was answered.
 */
import { isDeepStrictEqual } from 'node:util'
import { z } from 'zod'
import type { Answered, Asked, Client } from './a-client.ts'

const Row = z.looseObject({ id: z.string(), version: z.int() })
type Row = z.infer<typeof Row>
const WithBooking = z.object({ booking: Row })

/** A booking or a person, as it was last answered. */
export interface Written {
  /** Where it is read, changed and ended. */
  readonly path: string
  readonly row: Row
}

interface Sent {
  readonly asked: Asked
  readonly answered: Answered
}

export class Diary {
  readonly #written = new Map<string, Written>()
  readonly #posts: Sent[] = []
  #unanswered: Asked | null = null

  /** Those under this part of the path, in the order in which they were made. */
  written(segment: 'bookings' | 'people'): readonly Written[] {
    return [...this.#written.values()].filter(({ path }) => path.includes(`/${segment}/`))
  }

  /** Asks, and takes down what is answered. @throws Error when the service dies before it has answered */
  async ask(client: Client, asked: Asked): Promise<Answered> {
    this.#unanswered = asked
    const answered = await client.ask(asked)
    this.#unanswered = null
    if (answered.status < 300) this.#takeDown(asked, answered)
    return answered
  }

  #takeDown(asked: Asked, answered: Answered): void {
    const row = rowIn(answered)
    const path = asked.method === 'POST' ? `${asked.path}/${row.id}` : asked.path
    this.#written.set(path, { path, row })
    if (asked.method === 'POST') this.#posts.push({ asked, answered })
  }

  /** Reads everything again, once the service is back. @returns one sentence a row that is not as it was answered */
  async lost(client: Client): Promise<string[]> {
    const lost: string[] = []
    const unanswered = this.#unanswered
    this.#unanswered = null
    for (const { path, row } of [...this.#written.values()]) {
      const read = await client.ask({ method: 'GET', path })
      if (read.status !== 200) lost.push(`${path} is gone: ${read.status}`)
      else if (unanswered?.path === path && rowIn(read).version === row.version + 1) {
        // It was done and not answered any more; then it was done whole.
        if (!isDone(unanswered, rowIn(read))) lost.push(`${path} was changed by half`)
        this.#written.set(path, { path, row: rowIn(read) })
      } else if (!isDeepStrictEqual(rowIn(read), row)) lost.push(`${path} is not as it was answered`)
    }
    // Nobody knows whether it was done: sent again with its key, it is done once.
    if (unanswered?.method === 'POST') await this.ask(client, unanswered)
    return [...lost, ...(await this.#repeated(client))]
  }

  /** The last post that was acknowledged is answered the same again. */
  async #repeated(client: Client): Promise<string[]> {
    const last = this.#posts.at(-1)
    if (!last) return []
    const { status, text } = await client.ask(last.asked)
    const isSame = status === last.answered.status && text === last.answered.text
    return isSame ? [] : [`${last.asked.path} was answered otherwise when it came again`]
  }
}

/** The row in an answer, without what follows from it for turns. */
function rowIn({ text }: Answered): Row {
  const body: unknown = JSON.parse(text)
  const { decision: _decision, ...row } = WithBooking.safeParse(body).data?.booking ?? Row.parse(body)
  return row
}

const isDone = ({ method, body = {} }: Asked, row: Row): boolean =>
  method === 'DELETE'
    ? row.status === 'CANCELLED'
    : Object.entries(body).every(([name, value]) => {
        const is = row[name]
        // Moments are asked for by the wall clock and answered with their offset.
        return name.endsWith('At') ? String(is).startsWith(String(value)) : is === value
      })
