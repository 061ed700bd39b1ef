/** What every page has around it. */
import type { FastifyReply } from 'fastify'
import { CAUTION } from '../caution.ts'
import { type Html, html } from './html.ts'

/** A whole document. */
export const page = (title: string, content: Html): Html => html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${title} · Turnwright</title>
<link rel="stylesheet" href="/style.css">
</head>
<body>
<header class="top"><a class="name" href="/">Turnwright</a> <a class="plain" href="/openapi.json">API</a></header>
<main>
${content}
</main>
<footer><p><strong>Caution.</strong> ${CAUTION}</p></footer>
</body>
</html>
`

/** Whoever is signed in as the visitor of the demo is told so on every page. */
export function sendPage(reply: FastifyReply, content: Html, status = 200): FastifyReply {
  const isVisitor = reply.getHeader('x-demo') !== undefined
  const text = isVisitor ? content.text.replace('<main>', `${VISITOR_NOTE.text}\n<main>`) : content.text
  return reply.code(status).header('content-type', 'text/html; charset=utf-8').send(text)
}

const VISITOR_NOTE = html`<p class="visitor" role="note">You are signed in as a visitor: coordinator of the demo site. <a href="/sign-in">Sign in</a> with an account of your own.</p>`
