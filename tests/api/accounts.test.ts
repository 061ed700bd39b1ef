/** Signing in and out, links that count once, invitations, tokens: over the real service. */
import request from 'supertest'
import { describe, expect, test } from 'vitest'
import type { Letter } from '../../src/accounts/mail.ts'
import { setUpLink } from '../../src/accounts/one-time-links.ts'
import { secretsUnder } from '../../src/accounts/secrets.ts'
import { limitsOf } from '../../src/api/limits.ts'
import { Instant } from '../../src/domain/instant.ts'
import { keptParts } from './a-keeper.ts'
import { aService, NOW } from './a-service.ts'
import { aSite } from './a-site.ts'

const PASSWORD = 'four brown herons wade'
const ADA = { email: 'Ada@Example.org', name: 'Ada', password: PASSWORD }
const DAY = 86_400_000

async function aSignInService() {
  let at: number = NOW
  const letters: Letter[] = []
  const mail = { send: async (letter: Letter) => void letters.push(letter) }
  const service = await aService({ clock: () => Instant.parse(at), mail })
  const to = () => request(service.app.server)
  let ids = 0
  const accounts = {
    store: service.store.accounts,
    secrets: secretsUnder(keptParts.secretKey),
    mail,
    clock: () => Instant.parse(at),
    newId: (prefix: string) => `${prefix}_s${++ids}`,
    publicUrl: () => 'http://localhost',
  }
  const linkAtStart = () => setUpLink(accounts)
  const secretIn = (text: string | null | undefined) => /#(\S+)/.exec(text ?? '')?.[1] ?? ''
  const post = (path: string, body: object, headers = {}) => to().post(path).set(headers).send(body)
  /** Signed in by cookie: sends it, and what proves that our own page does. */
  const signedIn = (answer: request.Response) => {
    const cookie = String(answer.headers['set-cookie']?.[0]).split(';')[0] ?? ''
    const headers = { cookie, 'x-csrf-token': String(answer.body.csrfToken) }
    return {
      headers,
      get: (path: string) => to().get(path).set(headers),
      post: (path: string, body: object) => to().post(path).set(headers).send(body),
      patch: (path: string, body: object) => to().patch(path).set(headers).send(body),
      delete: (path: string) => to().delete(path).set(headers),
    }
  }
  const firstAccount = async () => {
    const link = secretIn(await linkAtStart())
    return signedIn(await post('/v1/first-account', { ...ADA, link }).expect(201))
  }
  return {
    service,
    letters,
    to,
    post,
    signedIn,
    linkAtStart,
    secretIn,
    firstAccount,
    later: (milliseconds: number) => {
      at += milliseconds
    },
  }
}

describe('the first account', () => {
  test('is made by the link that is printed at start, once, and keeps the whole installation', async () => {
    const { service, post, linkAtStart, secretIn, signedIn } = await aSignInService()
    const site = await aSite(service)
    const url = await linkAtStart()
    expect(url).toMatch(/^http:\/\/localhost\/set-up#turnwright_link_/)
    const link = secretIn(url)
    const made = await post('/v1/first-account', { ...ADA, link }).expect(201)
    expect(made.body).toMatchObject({ kind: 'account', name: 'Ada', roleEverywhere: 'administrator' })
    expect(made.headers['set-cookie']?.[0]).toMatch(
      /^turnwright=turnwright_session_\S+; Path=\/; HttpOnly; SameSite=Lax$/,
    )
    const ada = signedIn(made)
    expect((await ada.get(site.path).expect(200)).body.name).toBe('Alder Row')
    const again = await post('/v1/first-account', { ...ADA, email: 'ben@example.org', link }).expect(410)
    expect(again.body.type).toBe('/problems/link-gone')
    expect(await linkAtStart()).toBeNull()
  })

  test('is not made by a link that is a day old, of another kind, or replaced by a later one', async () => {
    const { post, linkAtStart, secretIn, later } = await aSignInService()
    const first = secretIn(await linkAtStart())
    const second = secretIn(await linkAtStart())
    await post('/v1/first-account', { ...ADA, link: first }).expect(410)
    await post('/v1/accounts', { ...ADA, link: second }).expect(410)
    later(DAY)
    await post('/v1/first-account', { ...ADA, link: second }).expect(410)
  })

  test('has a password that is long, not common, and not the name', async () => {
    const { post, linkAtStart, secretIn } = await aSignInService()
    const link = secretIn(await linkAtStart())
    const faultOf = async (password: string) =>
      (await post('/v1/first-account', { ...ADA, password, link }).expect(422)).body.errors[0]
    expect(await faultOf('short')).toMatchObject({
      at: '/password',
      message: 'has 5 characters; take 12 or more, a few words for instance',
    })
    expect((await faultOf('123456789012')).message).toBe(
      'is one of those that many people have; take another',
    )
    expect((await faultOf('password1234')).message).toBe(
      'is one of those that many people have; take another',
    )
    expect((await faultOf('abababababab')).message).toBe('repeats a few characters; take another')
    expect((await faultOf('ada@example.org')).message).toBe(
      'is little more than your name or e-mail address; take another',
    )
    await post('/v1/first-account', { ...ADA, link }).expect(201)
  })
})

describe('signing in', () => {
  test('takes address and password, gives a new session each time, and ends the old one', async () => {
    const { post, firstAccount, signedIn } = await aSignInService()
    const first = await firstAccount()
    const answer = await first
      .post('/v1/session', { email: 'ada@example.org', password: PASSWORD })
      .expect(200)
    const second = signedIn(answer)
    expect(second.headers.cookie).not.toBe(first.headers.cookie)
    await first.get('/v1/session').expect(401)
    expect((await second.get('/v1/session').expect(200)).body).toMatchObject({ name: 'Ada', kind: 'account' })
    await second.delete('/v1/session').expect(204)
    await second.get('/v1/session').expect(401)
    await post('/v1/session', { email: 'ada@example.org', password: PASSWORD }).expect(200)
  })

  test('again needs no proof of the session there is, which then ends', async () => {
    const { firstAccount, to } = await aSignInService()
    const { headers, get } = await firstAccount()
    const { cookie } = headers
    const body = { email: 'ada@example.org', password: PASSWORD }
    await to().post('/v1/session').set({ cookie }).send(body).expect(200)
    await get('/v1/session').expect(401)
  })

  test('is refused in the same words for another password and for nobody at all', async () => {
    const { post, firstAccount } = await aSignInService()
    await firstAccount()
    const wrong = await post('/v1/session', { email: 'ada@example.org', password: 'not this one, no' })
    const nobody = await post('/v1/session', { email: 'eve@example.org', password: 'not this one, no' })
    expect([wrong.status, nobody.status]).toEqual([401, 401])
    expect(wrong.body).toEqual(nobody.body)
  })

  test('waits longer and longer after five failures, for accounts there are not too, and never over a quarter of an hour', async () => {
    for (const email of ['ada@example.org', 'eve@example.org']) {
      const { post, firstAccount, later } = await aSignInService()
      await firstAccount()
      const attempt = (password = 'not this one, no') => post('/v1/session', { email, password })
      for (let failure = 0; failure < 5; failure += 1) await attempt().expect(401)
      const waits: number[] = []
      for (let failure = 0; failure < 12; failure += 1) {
        const stopped = await attempt().expect(429)
        expect(stopped.body.type).toBe('/problems/too-many-requests')
        const seconds = Number(stopped.headers['retry-after'])
        waits.push(seconds)
        later(seconds * 1000)
        await attempt().expect(401)
      }
      expect(waits).toEqual([1, 2, 4, 8, 16, 32, 64, 128, 256, 512, 900, 900])
      // Whoever knows the password waits too, and is let in after that.
      await attempt(PASSWORD).expect(429)
      later(900_000)
      await attempt(PASSWORD).expect(email.startsWith('ada') ? 200 : 401)
    }
  })

  test('counts attempts that are made at once one after the other', async () => {
    const { post, firstAccount } = await aSignInService()
    await firstAccount()
    const attempts = await Promise.all(
      Array.from({ length: 12 }, () =>
        post('/v1/session', { email: 'ada@example.org', password: 'not this one, no' }),
      ),
    )
    expect(attempts.map(({ status }) => status).sort()).toEqual([
      ...Array(5).fill(401),
      ...Array(7).fill(429),
    ])
  })

  test('ends twelve hours after the last request, and a fortnight after it began', async () => {
    const { firstAccount, later } = await aSignInService()
    const idle = await firstAccount()
    later(DAY / 2 - 1000)
    await idle.get('/v1/session').expect(200)
    later(DAY / 2)
    await idle.get('/v1/session').expect(401)
    const { firstAccount: another, later: then } = await aSignInService()
    const busy = await another()
    for (let half = 0; half < 27; half += 1) {
      then(DAY / 2 - 1000)
      await busy.get('/v1/session').expect(200)
    }
    then(DAY / 2)
    await busy.get('/v1/session').expect(401)
  })

  test('is ended everywhere at once where that is asked for', async () => {
    const { post, firstAccount, signedIn } = await aSignInService()
    const first = await firstAccount()
    const second = signedIn(await post('/v1/session', { email: 'ada@example.org', password: PASSWORD }))
    await first.delete('/v1/sessions').expect(204)
    for (const one of [first, second]) await one.get('/v1/session').expect(401)
  })

  test('by cookie changes nothing without the word that only our own pages know', async () => {
    const { firstAccount, to } = await aSignInService()
    const ada = await firstAccount()
    const body = { name: 'Alder Row', zone: 'Europe/London' }
    const bare = await to().post('/v1/sites').set('cookie', ada.headers.cookie).send(body).expect(403)
    expect(bare.body.type).toBe('/problems/csrf-missing')
    const guessed = { ...ada.headers, 'x-csrf-token': 'x'.repeat(43) }
    await to().post('/v1/sites').set(guessed).send(body).expect(403)
    await ada.post('/v1/sites', body).expect(201)
  })
})

describe('a link that is sent', () => {
  test('signs in once, within a quarter of an hour, and is sent once a minute', async () => {
    const { post, firstAccount, letters, secretIn, signedIn, later } = await aSignInService()
    await firstAccount()
    const ask = () => post('/v1/sign-in-links', { email: 'ADA@example.org' }).expect(202)
    await ask()
    await ask()
    await untilLetters(letters, 1)
    expect(letters).toHaveLength(1)
    const link = secretIn(letters[0]?.text)
    const ada = signedIn(await post('/v1/session', { link }).expect(200))
    await ada.get('/v1/account').expect(200)
    await post('/v1/session', { link }).expect(410)
    later(60_000)
    await ask()
    await untilLetters(letters, 2)
    later(900_000)
    await post('/v1/session', { link: secretIn(letters[1]?.text) }).expect(410)
  })

  test('is answered the same where there is no such account, and nothing is sent', async () => {
    const { post, letters, firstAccount } = await aSignInService()
    await firstAccount()
    const nobody = await post('/v1/sign-in-links', { email: 'eve@example.org' }).expect(202)
    await post('/v1/sign-in-links', { email: 'ada@example.org' }).expect(202)
    await untilLetters(letters, 1)
    expect([nobody.text, letters.map(({ to }) => to)]).toEqual(['', ['ada@example.org']])
  })

  test('lets a new password be chosen, and every session ends', async () => {
    const { post, firstAccount, letters, secretIn } = await aSignInService()
    const ada = await firstAccount()
    await post('/v1/password-links', { email: 'ada@example.org' }).expect(202)
    await untilLetters(letters, 1)
    const link = secretIn(letters[0]?.text)
    await post('/v1/passwords', { link, password: 'password1234' }).expect(422)
    const password = 'seven pale moths circle'
    await post('/v1/passwords', { link, password }).expect(204)
    await post('/v1/passwords', { link, password }).expect(410)
    await ada.get('/v1/session').expect(401)
    await post('/v1/session', { email: 'ada@example.org', password: PASSWORD }).expect(401)
    await post('/v1/session', { email: 'ada@example.org', password }).expect(200)
  })
})

describe('an invitation', () => {
  test('gives an account its role in one site, and that alone', async () => {
    const { service, post, firstAccount, secretIn, signedIn } = await aSignInService()
    const [site, other] = [await aSite(service), await aSite(service)]
    const ada = await firstAccount()
    const invited = await ada.post(`${site.path}/invitations`, { role: 'crew' }).expect(201)
    const link = secretIn(invited.body.url)
    const made = await post('/v1/accounts', {
      email: 'ben@example.org',
      name: 'Ben',
      password: PASSWORD,
      link,
    })
    const ben = signedIn(made)
    expect(made.body).toMatchObject({ roleEverywhere: null, roles: [{ siteId: site.siteId, role: 'crew' }] })
    expect((await ben.get('/v1/sites').expect(200)).body.items.map(({ id }: { id: string }) => id)).toEqual([
      site.siteId,
    ])
    await ben.get(`${site.path}/turns`).expect(200)
    const refused = await ben.get(`${site.path}/audit`).expect(403)
    expect(refused.body.detail).toBe(
      'As crew of this site you may not do that; coordinator and administrator may.',
    )
    const hidden = await ben.get(`${other.path}/turns`).expect(404)
    const missing = await ben.get('/v1/sites/site_nowhere/turns').expect(404)
    expect(hidden.body.type).toBe(missing.body.type)
    await post('/v1/accounts', { email: 'cleo@example.org', name: 'Cleo', password: PASSWORD, link }).expect(
      410,
    )
    const members = (await ada.get(`${site.path}/members`).expect(200)).body.items
    expect(members).toMatchObject([{ name: 'Ben', email: 'ben@example.org', role: 'crew', personId: null }])
    const audit = (await ada.get(`${site.path}/audit?limit=200`)).body.items
    expect(audit.slice(-2).map(({ action }: { action: string }) => action)).toEqual(['invite', 'join'])
    // No name or address stands in what is never erased.
    expect(JSON.stringify(audit)).not.toMatch(/Ben|ben@|turnwright_link/)
  })

  test('is taken by an account that there is already, and can be revoked before', async () => {
    const { service, firstAccount, secretIn, signedIn, post } = await aSignInService()
    const [site, other] = [await aSite(service), await aSite(service)]
    const ada = await firstAccount()
    const linkFor = async (path: string) =>
      secretIn((await ada.post(`${path}/invitations`, { role: 'coordinator' }).expect(201)).body.url)
    const ben = signedIn(
      await post('/v1/accounts', {
        email: 'ben@example.org',
        name: 'Ben',
        password: PASSWORD,
        link: await linkFor(site.path),
      }),
    )
    await ben.post('/v1/memberships', { link: await linkFor(other.path) }).expect(201)
    await ben.get(`${other.path}/audit`).expect(200)
    const revoked = await ada.post(`${site.path}/invitations`, { role: 'crew', days: 1 }).expect(201)
    await ada.delete(`${site.path}/invitations/${revoked.body.id}`).expect(204)
    await ada.delete(`${site.path}/invitations/${revoked.body.id}`).expect(404)
    await ben.post('/v1/memberships', { link: secretIn(revoked.body.url) }).expect(410)
  })

  test('may say who of the crew list it is for; a role is changed and taken away', async () => {
    const { service, firstAccount, secretIn, signedIn, post } = await aSignInService()
    const site = await aSite(service)
    const ada = await firstAccount()
    const unknown = await ada.post(`${site.path}/invitations`, { role: 'crew', personId: 'person_nobody' })
    expect([unknown.status, unknown.body.errors[0].at]).toEqual([422, '/personId'])
    const invited = await ada.post(`${site.path}/invitations`, { role: 'crew', personId: site.personId })
    const link = secretIn(invited.body.url)
    const made = await post('/v1/accounts', {
      email: 'ben@example.org',
      name: 'Ben',
      password: PASSWORD,
      link,
    })
    const ben = signedIn(made)
    const member = `${site.path}/members/${made.body.actorId}`
    const changed = await ada.patch(member, { role: 'crew-lead' }).expect(200)
    expect(changed.body).toMatchObject({ role: 'crew-lead', personId: site.personId })
    await ben.get(`${site.path}/warnings`).expect(200)
    await ada.delete(member).expect(204)
    await ben.get(`${site.path}/turns`).expect(404)
    await ada.delete(member).expect(404)
  })
})

describe('a token', () => {
  test('is shown once, works for its site and role, says when it was used, and can be revoked', async () => {
    const { service, firstAccount, to } = await aSignInService()
    const [site, other] = [await aSite(service), await aSite(service)]
    const ada = await firstAccount()
    const made = await ada.post(`${site.path}/tokens`, { name: 'sign at the door', role: 'crew' }).expect(201)
    const { id, secret } = made.body
    expect(secret).toMatch(/^turnwright_token_[\w-]{43}$/)
    const as = { authorization: `Bearer ${secret}` }
    await to().get(`${site.path}/turns`).set(as).expect(200)
    await to().get(`${site.path}/audit`).set(as).expect(403)
    await to().get(`${other.path}/turns`).set(as).expect(404)
    await to().get('/v1/account').set(as).expect(403)
    const list = await ada.get(`${site.path}/tokens`).expect(200)
    expect(list.text).not.toContain(secret)
    expect(list.body.items).toMatchObject([{ id, name: 'sign at the door', role: 'crew' }])
    expect(list.body.items[0].lastUsedAt).not.toBeNull()
    await ada.delete(`${site.path}/tokens/${id}`).expect(204)
    await to().get(`${site.path}/turns`).set(as).expect(401)
    await ada.delete(`${site.path}/tokens/${id}`).expect(404)
  })

  test('is over after its days', async () => {
    const { service, firstAccount, to, later } = await aSignInService()
    const site = await aSite(service)
    const ada = await firstAccount()
    const made = await ada.post(`${site.path}/tokens`, { name: 'a day', role: 'crew', days: 1 }).expect(201)
    const as = { authorization: `Bearer ${made.body.secret}` }
    later(DAY - 1)
    await to().get(`${site.path}/turns`).set(as).expect(200)
    later(1)
    await to().get(`${site.path}/turns`).set(as).expect(401)
  })
})

describe('one’s own account', () => {
  test('is told whole, changed with the password, and removed with its name; the id stays in the audit', async () => {
    const { service, firstAccount, secretIn, signedIn, post } = await aSignInService()
    const site = await aSite(service)
    const ada = await firstAccount()
    const invited = await ada.post(`${site.path}/invitations`, { role: 'coordinator' }).expect(201)
    const made = await post('/v1/accounts', {
      email: 'ben@example.org',
      name: 'Ben',
      password: PASSWORD,
      link: secretIn(invited.body.url),
    })
    const ben = signedIn(made)
    const id = made.body.actorId
    expect((await ben.get('/v1/account').expect(200)).body).toMatchObject({
      id,
      details: { name: 'Ben', email: 'ben@example.org' },
      memberships: [{ siteId: site.siteId, role: 'coordinator' }],
    })
    const moved = { email: 'ben@example.net' }
    expect((await ben.patch('/v1/account', moved).expect(422)).body.errors[0].at).toBe('/currentPassword')
    await ben.patch('/v1/account', { ...moved, currentPassword: PASSWORD }).expect(200)
    await ben.patch('/v1/account', { email: 'ada@example.org', currentPassword: PASSWORD }).expect(422)
    await ben.delete('/v1/account').expect(204)
    await ben.get('/v1/account').expect(401)
    await post('/v1/session', { email: 'ben@example.net', password: PASSWORD }).expect(401)
    expect(await service.store.accounts.account(id)).toMatchObject({ details: null, memberships: [] })
    const audit = (await ada.get(`${site.path}/audit?limit=200`)).body.items
    expect(audit.at(-1)).toMatchObject({ action: 'leave', actorId: id })
    const kept = await ada.delete('/v1/account').expect(409)
    expect(kept.body.type).toBe('/problems/still-in-use')
  })
})

describe('too many requests', () => {
  test('from one address are stopped, and told when to come again', async () => {
    const service = await aService({ limits: limitsOf(5, 2) })
    for (let count = 0; count < 5; count += 1) await service.get('/v1/sites').expect(200)
    const stopped = await service.get('/v1/sites').expect(429)
    expect(stopped.body.type).toBe('/problems/too-many-requests')
    expect(Number(stopped.headers['retry-after'])).toBeGreaterThan(0)
  })
})

/** Letters are sent after the answer. */
async function untilLetters(letters: readonly Letter[], count: number): Promise<void> {
  for (let turn = 0; turn < 2_000 && letters.length < count; turn += 1)
    await new Promise((resolve) => setImmediate(resolve))
}
