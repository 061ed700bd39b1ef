/** A client that keeps one connection to the service and waits for each answer before it asks again. */
import http from 'node:http'
import { KEEPER } from '../api/a-keeper.ts'

export interface Asked {
  readonly method: 'GET' | 'POST' | 'PATCH' | 'DELETE'
  readonly path: string
  readonly body?: object
  readonly headers?: Readonly<Record<string, string>>
}

export interface Answered {
  readonly status: number
  readonly headers: http.IncomingHttpHeaders
  readonly text: string
}

export interface Client {
  /** @throws Error when the connection breaks before the whole answer is there */
  ask(asked: Asked): Promise<Answered>
  close(): void
}

/**
 * @param url  of the service, without a path at its end
 * @param own  headers of every request: what signs the client in
 */
export function aClient(url: string, own: Readonly<Record<string, string>> = KEEPER): Client {
  const agent = new http.Agent({ keepAlive: true, maxSockets: 1 })
  return {
    ask: ({ method, path, body, headers = {} }) =>
      new Promise((resolve, reject) => {
        const text = body === undefined ? '' : JSON.stringify(body)
        const typed = body === undefined ? {} : { 'content-type': 'application/json' }
        const request = http.request(url + path, {
          agent,
          method,
          headers: { ...typed, 'content-length': Buffer.byteLength(text), ...own, ...headers },
        })
        request.on('error', reject)
        request.on('response', (response) => {
          const chunks: Buffer[] = []
          response.on('data', (chunk: Buffer) => chunks.push(chunk))
          response.on('error', reject)
          response.on('close', () => {
            if (!response.complete) return reject(new Error('the answer was cut off'))
            const { statusCode = 0, headers: answered } = response
            resolve({ status: statusCode, headers: answered, text: Buffer.concat(chunks).toString() })
          })
        })
        request.end(text)
      }),
    close: () => agent.destroy(),
  }
}
