/** The HTTP service stops, whatever its clients do with their connections. */
import net from 'node:net'
import fastify from 'fastify'
import { describe, expect, test } from 'vitest'
import { orderlyClose } from '../src/orderly-close.ts'

/** Answers when it is told to. */
async function aSlowService(cutAfterMilliseconds: number) {
  const app = fastify()
  let isAsked = () => {}
  const asked = new Promise<void>((resolve) => {
    isAsked = resolve
  })
  let answer = () => {}
  const mayAnswer = new Promise<void>((resolve) => {
    answer = resolve
  })
  app.get('/', async () => {
    isAsked()
    await mayAnswer
    return { answered: true }
  })
  const close = orderlyClose(app, { cutAfterMilliseconds })
  await app.listen({ port: 0, host: '127.0.0.1' })
  const { port } = app.server.address() as net.AddressInfo
  return { port, asked, answer, close }
}

/** A client that sends this and never hangs up by itself. */
function aClient(port: number, sent: string) {
  const socket = net.connect(port, '127.0.0.1', () => socket.write(sent))
  let received = ''
  socket.on('data', (chunk) => {
    received += chunk.toString()
  })
  const ended = new Promise<string>((resolve) => {
    socket.on('error', () => {})
    socket.on('close', () => resolve(received))
  })
  return { ended }
}

const keepAlive = 'GET / HTTP/1.1\r\nHost: localhost\r\nConnection: keep-alive\r\n\r\n'

describe('the stop', () => {
  test('answers what is under way and then closes the connection, though the client would keep it', async () => {
    const { port, asked, answer, close } = await aSlowService(60_000)
    const client = aClient(port, keepAlive)
    await asked
    const closed = close()
    answer()
    await closed
    const received = await client.ended
    expect(received).toContain('{"answered":true}')
    expect(received).toMatch(/^connection: close\r$/im)
  })

  test('cuts a connection that is still open after a while: one whose request is never finished', async () => {
    const { port, asked, close } = await aSlowService(200)
    const whole = aClient(port, keepAlive)
    const half = aClient(port, 'GET / HTTP/1.1\r\nHost: localh')
    await asked
    await close()
    expect(await whole.ended).toBe('')
    expect(await half.ended).toBe('')
  })
})
