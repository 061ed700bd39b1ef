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

export const sendPage = (reply: FastifyReply, content: Html, status = 200): FastifyReply =>
  reply.code(status).header('content-type', 'text/html; charset=utf-8').send(content.text)
