/** A client of a stream of events: reads what comes, by the rules of the WHATWG, and waits for what it is told to. */
import { once } from 'node:events'
import http from 'node:http'
import { onTestFinished } from 'vitest'
import { KEEPER } from './a-keeper.ts'

export interface ReceivedEvent {
  readonly id: number
  readonly event: string
  readonly data: Record<string, unknown>
}

export interface EventStreamClient {
  readonly status: number
  readonly headers: http.IncomingHttpHeaders
  /** Everything that came, as text. */
  text(): string
  events(): readonly ReceivedEvent[]
  /** The ids of the changes that came, in the order in which they came. */
  changeIds(): readonly number[]
  /** Waits until this is so; asked anew whenever something has come. @throws when the stream ends before */
  until(isSo: () => boolean): Promise<void>
  /** Waits for the event with this id. */
  untilId(id: number): Promise<void>
  /** Takes nothing more until `resume`. */
  pause(): void
  resume(): void
  /** Resolves when the service has ended it: `whole`, or `broken` where it was cut off. */
  readonly ended: Promise<'whole' | 'broken'>
  /** Hangs up. */
  hangUp(): void
}

/** Opened when the head of the answer is there; hung up when the test ends. */
export async function anEventStream(
  url: string,
  headers: Record<string, string> = {},
): Promise<EventStreamClient> {
  const request = http.get(url, { agent: false, headers: { ...KEEPER, ...headers } })
  request.on('error', () => {})
  onTestFinished(() => {
    request.destroy()
  })
  const response: http.IncomingMessage = (await once(request, 'response'))[0]
  response.setEncoding('utf8')
  const chunks: string[] = []
  const events: ReceivedEvent[] = []
  const ids = new Set<number>()
  let unfinished = ''
  let hasEnded = false
  let look = () => {}
  response.on('data', (chunk: string) => {
    chunks.push(chunk)
    const blocks = (unfinished + chunk).split('\n\n')
    unfinished = blocks.pop() ?? ''
    for (const event of blocks.flatMap(eventsOf)) {
      events.push(event)
      ids.add(event.id)
    }
    look()
  })
  const ended = new Promise<'whole' | 'broken'>((resolve) => {
    response.on('error', () => {})
    response.on('close', () => {
      hasEnded = true
      look()
      resolve(response.complete ? 'whole' : 'broken')
    })
  })
  const until = (isSo: () => boolean): Promise<void> =>
    new Promise((resolve, reject) => {
      look = () => {
        if (isSo()) resolve()
        else if (hasEnded)
          reject(new Error(`ended before it came; the last was ${JSON.stringify(events.at(-1))}`))
      }
      look()
    })
  return {
    status: response.statusCode ?? 0,
    headers: response.headers,
    text: () => chunks.join(''),
    events: () => events,
    changeIds: () => events.flatMap(({ event, id }) => (event === 'change' ? [id] : [])),
    until,
    untilId: (id) => until(() => ids.has(id)),
    pause: () => response.pause(),
    resume: () => response.resume(),
    ended,
    hangUp: () => request.destroy(),
  }
}

/**
 * @param block  lines up to an empty one; only then it is an event. A line that begins with a colon is a comment.
 * @returns one event; none when there is no data
 */
function eventsOf(block: string): ReceivedEvent[] {
  const fields = new Map<string, string>()
  for (const line of block.split('\n')) {
    const [, name, value] = /^([^:]+): ?(.*)$/.exec(line) ?? []
    if (name !== undefined && value !== undefined) fields.set(name, value)
  }
  const data = fields.get('data')
  if (data === undefined) return []
  return [{ id: Number(fields.get('id')), event: fields.get('event') ?? '', data: JSON.parse(data) }]
}
