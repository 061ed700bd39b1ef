/** What is sent back: made before it is written, so that it can be stored with the effect and sent again. */
import type { FastifyReply } from 'fastify'
import type { Problem } from './problems.ts'
import { wire } from './wire.ts'

export interface Answer {
  readonly status: number
  readonly headers: Readonly<Record<string, string>>
  readonly body: string
}

export const JSON_TYPE = 'application/json; charset=utf-8'
const PROBLEM_TYPE = 'application/problem+json; charset=utf-8'

/** @param zone  of the site whose moments are in the value */
export function jsonAnswer(
  status: number,
  value: unknown,
  zone: string,
  headers: Readonly<Record<string, string>> = {},
): Answer {
  return {
    status,
    headers: { 'content-type': JSON_TYPE, ...headers },
    body: JSON.stringify(wire(value, zone)),
  }
}

export const problemAnswer = (problem: Problem): Answer => ({
  status: problem.status,
  headers: { 'content-type': PROBLEM_TYPE, ...problem.headers },
  body: problem.text(),
})

export const send = (reply: FastifyReply, answer: Answer): FastifyReply =>
  reply.code(answer.status).headers(answer.headers).send(answer.body)
