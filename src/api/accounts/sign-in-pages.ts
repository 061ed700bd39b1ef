/** Pages on which somebody signs in, or takes what a link offers. What they do is in forms.js: no script stands in a page. */

import { z } from 'zod'
import { page, sendPage } from '../page/frame.ts'
import { html } from '../page/html.ts'
import type { Api } from '../zod-requests.ts'
import { FORMS_SCRIPT } from './forms-script.ts'

const htmlAnswer = { description: 'A page', content: { 'text/html': { schema: z.string() } } }

const PAGES = [
  { path: '/sign-in', title: 'Sign in', send: '/v1/session', fields: ['email', 'password'] },
  {
    path: '/set-up',
    title: 'Make the first account',
    send: '/v1/first-account',
    fields: ['name', 'email', 'new-password'],
  },
  {
    path: '/invitation',
    title: 'Take an invitation',
    send: '/v1/accounts',
    fields: ['name', 'email', 'new-password'],
  },
  {
    path: '/new-password',
    title: 'Choose a new password',
    send: '/v1/passwords',
    fields: ['new-password'],
  },
] as const

const FIELDS = {
  name: html`<label>Name <input name="name" autocomplete="name" required maxlength="120"></label>`,
  email: html`<label>E-mail <input name="email" type="email" autocomplete="username" required maxlength="254"></label>`,
  password: html`<label>Password <input name="password" type="password" autocomplete="current-password" required></label>`,
  'new-password': html`<label>Password, 12 characters or more <input name="password" type="password" autocomplete="new-password" required minlength="12"></label>`,
} as const

export function signInPages(api: Api): void {
  for (const { path, title, send, fields } of PAGES) {
    api.get(
      path,
      {
        config: { isPage: true },
        schema: { tags: ['pages'], summary: title, response: { 200: htmlAnswer } },
      },
      async (_request, reply) =>
        sendPage(
          reply,
          page(
            title,
            html`<h1>${title}</h1>
<form class="sign-in" data-send="${send}">
${fields.map((field) => html`<p>${FIELDS[field]}</p>`)}
<p><button type="submit">${title}</button></p>
<p role="alert" class="fault"></p>
</form>
${path === '/sign-in' ? html`<form class="sign-in" data-send="/v1/sign-in-links"><p>${FIELDS.email}</p><p><button type="submit">Send me a link instead</button></p><p role="alert" class="fault"></p></form>` : html``}
<noscript><p>These forms need a script of this service; or send the same by the API.</p></noscript>
<script src="/forms.js" defer></script>`,
          ),
        ),
    )
  }

  api.get(
    '/forms.js',
    {
      schema: {
        tags: ['pages'],
        summary: 'What the forms of these pages do',
        response: {
          200: { description: 'A script', content: { 'text/javascript': { schema: z.string() } } },
        },
      },
    },
    async (_request, reply) =>
      reply.header('content-type', 'text/javascript; charset=utf-8').send(FORMS_SCRIPT),
  )
}
