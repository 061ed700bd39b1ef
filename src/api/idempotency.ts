/**
 * A POST that is sent again with the same Idempotency-Key gets the answer of the first one, and has no effect of its
 * own. The key counts for one actor and one route; the body must be the same, byte for byte.
 */
import { createHash } from 'node:crypto'
import type { FastifyRequest } from 'fastify'
import type { IdempotentAnswer, Store } from '../store/store.ts'
import { type Answer, problemAnswer } from './answer.ts'
import type { ApiContext } from './context.ts'
import { invalidInput, Problem } from './problems.ts'

/** 1 to 200 visible characters of ASCII. */
const keyShape = /^[\x21-\x7e]{1,200}$/

type Place = Pick<IdempotentAnswer, 'actorId' | 'route' | 'key' | 'bodyHash'>

/** Stores an answer under the key of the request, or does nothing where there is no key. */
export class AnswerKeeper {
  readonly #store: Store
  readonly #place: Place | null

  constructor(store: Store, place: Place | null) {
    this.#store = store
    this.#place = place
  }

  /** To be spread into a Commit: the answer is then written with the effect, or neither is. */
  withEffect(answer: Answer): { readonly answer?: IdempotentAnswer } {
    return this.#place ? { answer: { ...this.#place, ...answer } } : {}
  }

  /** The answer that is stored already, to be sent again. @throws Problem idempotency-key-reused */
  async stored(): Promise<Answer | null> {
    if (!this.#place) return null
    const { actorId, route, key, bodyHash } = this.#place
    const stored = await this.#store.answerFor(actorId, route, key)
    if (!stored) return null
    if (stored.bodyHash !== bodyHash) {
      throw new Problem('idempotency-key-reused', 'This Idempotency-Key came before with another body.')
    }
    const headers = { ...stored.headers, 'idempotent-replayed': 'true' }
    return { status: stored.status, headers, body: stored.body }
  }

  /** For a "no" that wrote nothing. */
  async keep(answer: Answer, context: ApiContext): Promise<void> {
    if (this.#place) await this.#store.keepAnswer({ ...this.#place, ...answer }, context.clock())
  }
}

/** Does the work of a POST once per key. A judged "no" is kept too; what was never judged may be sent again. */
export type AnswerOnce = (
  request: FastifyRequest,
  work: (keeper: AnswerKeeper) => Promise<Answer>,
) => Promise<Answer>

export function answeringOnce(context: ApiContext): AnswerOnce {
  const underWay = new Map<string, Promise<unknown>>()
  return async (request, work) => {
    const place = placeOf(request)
    if (!place) return work(new AnswerKeeper(context.store, null))
    const name = [place.actorId, place.route, place.key].join(' ')
    // Whoever sent the same at the same time goes first; each round one of them has ended.
    while (underWay.has(name)) await underWay.get(name)
    const answer = keptWork(context, new AnswerKeeper(context.store, place), work)
    underWay.set(
      name,
      answer.catch(() => undefined),
    )
    try {
      return await answer
    } finally {
      underWay.delete(name)
    }
  }
}

async function keptWork(
  context: ApiContext,
  keeper: AnswerKeeper,
  work: (keeper: AnswerKeeper) => Promise<Answer>,
): Promise<Answer> {
  const stored = await keeper.stored()
  if (stored) return stored
  try {
    return await work(keeper)
  } catch (fault) {
    if (!(fault instanceof Problem) || fault.slug !== 'does-not-fit') throw fault
    const answer = problemAnswer(fault)
    await keeper.keep(answer, context)
    // The same may have been sent to another process, which answered first: that answer is the one that stays.
    const kept = await keeper.stored()
    return kept && kept.body !== answer.body ? kept : answer
  }
}

function placeOf(request: FastifyRequest): Place | null {
  const key = request.headers['idempotency-key']
  if (key === undefined) return null
  if (typeof key !== 'string' || !keyShape.test(key)) {
    const message = 'expected 1 to 200 visible characters without spaces'
    throw invalidInput([{ at: '/idempotency-key', in: 'header', message }])
  }
  const bodyHash = createHash('sha256')
    .update(request.rawBody ?? '')
    .digest('hex')
  return { actorId: request.actor.id, route: `${request.method} ${pathOf(request.url)}`, key, bodyHash }
}

const pathOf = (url: string): string => url.split('?', 1)[0] ?? url
