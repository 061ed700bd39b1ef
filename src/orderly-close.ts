/**
 * Stops the HTTP service so that what is under way is answered, and no client that keeps its connection open for the
 * next request can hold the stop up: by itself the server would wait for such connections for over a minute.
 */
import type { FastifyInstance } from 'fastify'

export interface OrderlyCloseOptions {
  /** Connections that are still open after this are cut. Default: 10 s. */
  readonly cutAfterMilliseconds?: number
}

const CUT_AFTER_MILLISECONDS = 10_000
const LOOK_AGAIN_MILLISECONDS = 50

/**
 * @param app  not listening yet
 * @returns what stops it: no new requests are taken, those under way are answered with `connection: close`, and it
 *          resolves when every connection is gone
 */
export function orderlyClose(app: FastifyInstance, options: OrderlyCloseOptions = {}): () => Promise<void> {
  let stopping = false
  app.addHook('onSend', async (_request, reply) => {
    if (stopping) reply.header('connection', 'close')
  })
  return async () => {
    stopping = true
    const { server } = app
    // A connection is idle only once its answer is out, so one look is not enough.
    const looking = setInterval(() => server.closeIdleConnections(), LOOK_AGAIN_MILLISECONDS)
    const cutting = setTimeout(
      () => server.closeAllConnections(),
      options.cutAfterMilliseconds ?? CUT_AFTER_MILLISECONDS,
    )
    try {
      await app.close()
    } finally {
      clearInterval(looking)
      clearTimeout(cutting)
    }
  }
}
