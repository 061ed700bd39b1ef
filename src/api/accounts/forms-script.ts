/** Sends a form as JSON, with the secret of the link it was opened by, and says what came back. */
export const FORMS_SCRIPT = `'use strict'
const secret = location.hash.slice(1)
// The secret stays out of the history and of what is shared.
if (secret) history.replaceState(null, '', location.pathname)
const post = (path, body) =>
  fetch(path, { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) })
const say = (form, text) => { form.querySelector('[role=alert]').textContent = text }
async function answered(form, response) {
  if (response.status === 202) return say(form, 'If there is such an account, a link is on its way.')
  if (response.ok) return location.assign(form.dataset.send === '/v1/passwords' ? '/sign-in' : '/')
  const problem = await response.json()
  say(form, (problem.errors ?? []).map(({ at, message }) => at.slice(1) + ' ' + message).join('. ') || problem.detail)
}
for (const form of document.querySelectorAll('form[data-send]')) {
  form.addEventListener('submit', async (event) => {
    event.preventDefault()
    const body = Object.fromEntries(new FormData(form))
    if (secret) body.link = secret
    say(form, '')
    try { await answered(form, await post(form.dataset.send, body)) } catch { say(form, 'The service does not answer.') }
  })
}
if (secret && location.pathname === '/sign-in') {
  const [form] = document.querySelectorAll('form[data-send]')
  post('/v1/session', { link: secret }).then((response) => answered(form, response))
}
`
