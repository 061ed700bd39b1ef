import { describe, expect, test } from 'vitest'
import { html } from '../../src/api/page/html.ts'
import { weekOf } from '../../src/api/page/week.ts'
import { handsWords, neededWords, slackWords } from '../../src/api/page/words.ts'
import { Judgement } from '../../src/domain/turn.ts'
import { aService, NOW } from './a-service.ts'
import { aDinner, aGamesNight, aSite } from './a-site.ts'

const hostile = `<script>alert("1")</script>'&`

describe('the page of the week', () => {
  test('shows each room’s bookings and, between them, the turn with its minutes, hands and verdict in words', async () => {
    const service = await aService()
    const site = await aSite(service)
    await service.post(`${site.path}/bookings`, aGamesNight(site)).expect(201)
    const { decision, booking } = (await service.post(`${site.path}/bookings`, aDinner(site)).expect(201))
      .body
    const answer = await service.get('/').expect(200)
    expect(answer.headers['content-type']).toBe('text/html; charset=utf-8')
    const text = answer.text
    const order = ['Youth games night', 'Games floor → Banquet of 15', 'Harvest supper'].map((words) =>
      text.indexOf(words),
    )
    expect(order.every((place) => place > 0)).toBe(true)
    expect(order).toEqual([...order].sort((a, b) => a - b))
    expect(text).toContain(`needs ${Math.ceil(decision.before.neededSeconds / 60)} min of `)
    expect(text).toContain(`${decision.before.hands.needed} hands of 4 on duty`)
    expect(text).toMatch(/<strong>fits<\/strong>/)
    expect(text).toContain(' to spare')
    expect(text).toContain(`href="/turns/${booking.turnId}?site=${site.siteId}"`)
    expect(text).toContain('17:00–20:00 · Banquet of 15 · 100 guests')
    expect(text).toContain('the posted occupant limit')
    expect(text).not.toContain('<script')
    expect(text).not.toContain('style="')
  })

  test('goes to other weeks and other sites by links, and asks for the first site when none is named', async () => {
    const service = await aService()
    const first = await aSite(service)
    const second = (await service.post('/v1/sites', { name: 'Birch Yard', zone: 'Europe/London' })).body.id
    await service.post(`${first.path}/bookings`, aDinner(first)).expect(201)
    const text = (await service.get('/')).text
    expect(text).toContain('2026-11-23 to 2026-11-29')
    expect(text).toContain(`/?site=${first.siteId}&amp;week=2026-11-16`)
    expect(text).toContain(`/?site=${first.siteId}&amp;week=2026-11-30`)
    expect(text).toContain(`<a href="/?site=${second}">Birch Yard</a>`)
    expect((await service.get('/?week=2026-12-02')).text).not.toContain('Harvest supper')
    expect((await service.get('/?week=2026-11-29')).text).toContain('Harvest supper')
    const other = await service.get(`/?site=${second}`).expect(200)
    expect(other.text).toContain('No room has been added yet.')
  })

  test('says what to do when there is no site yet', async () => {
    const service = await aService()
    expect((await service.get('/').expect(200)).text).toContain('No site yet')
  })

  test('shows closures, and what does not fit first of all', async () => {
    const service = await aService()
    const site = await aSite(service)
    const { booking } = (await service.post(`${site.path}/bookings`, aDinner(site)).expect(201)).body
    const days = { fromAt: '2026-11-28T00:00', toAt: '2026-11-29T00:00' }
    await service
      .post(`${site.path}/closures`, { sectionIds: [site.northId], ...days, reason: 'Boiler' })
      .expect(201)
    const { text } = await service.get('/')
    expect(text).toContain('<strong>Closed</strong> Boiler')
    const places = [
      '<h2>Warnings</h2>',
      '<strong>does not fit</strong>',
      'is closed from',
      '<h2>Long Hall',
    ].map((words) => text.indexOf(words))
    expect(Math.min(...places)).toBeGreaterThan(0)
    expect(places).toEqual([...places].sort((a, b) => a - b))
    expect(text).toContain(`href="/turns/${booking.turnId}?site=${site.siteId}"`)
    expect(text).toMatch(/<strong>does not fit<\/strong>/)
  })

  test('writes names as text, whatever is in them', async () => {
    const service = await aService()
    const site = await aSite(service)
    const room = await service
      .post(`${site.path}/rooms`, { name: hostile, sectionIds: [site.northId] })
      .expect(201)
    const layout = { roomId: room.body.id, name: hostile, kind: 'other' }
    const layoutId = (await service.post(`${site.path}/layouts`, layout).expect(201)).body.id
    const asked = { ...aDinner(site), roomId: room.body.id, layoutId, title: hostile }
    const { booking } = (await service.post(`${site.path}/bookings`, asked).expect(201)).body
    const escaped = '&lt;script&gt;alert(&quot;1&quot;)&lt;/script&gt;&#39;&amp;'
    for (const path of ['/', `/turns/${booking.turnId}`]) {
      const { text } = await service.get(path).expect(200)
      expect(text).toContain(escaped)
      expect(text).not.toContain('<script')
    }
  })
})

describe('the page of a turn', () => {
  test('lists the tasks in order with times, words, places, hands and who, and ends with the caution', async () => {
    const service = await aService()
    const site = await aSite(service)
    await service.post(`${site.path}/bookings`, aGamesNight(site)).expect(201)
    const { booking } = (await service.post(`${site.path}/bookings`, aDinner(site)).expect(201)).body
    const turn = (await service.get(`${site.path}/turns/${booking.turnId}`)).body
    const { text } = await service.get(`/turns/${booking.turnId}`).expect(200)
    const table = text.slice(text.indexOf('<tbody>'), text.indexOf('</tbody>'))
    let from = 0
    for (const task of turn.tasks) {
      const place = table.indexOf(task.startsAt.slice(11, 16), from)
      expect(place, task.key).toBeGreaterThan(from - 1)
      expect(table.indexOf(html`${task.text}`.text, place)).toBeGreaterThan(place)
      from = place
    }
    for (const lane of turn.lanes) expect(text).toContain(`<h3>${lane.label}</h3>`)
    const notes = turn.tasks.flatMap(({ safetyNotes }: { safetyNotes: string[] }) => safetyNotes)
    for (const note of notes) expect(text).toContain(html`${note}`.text)
    expect(text).toContain('<strong>Caution.</strong>')
  })

  test('is found with its site or without', async () => {
    const service = await aService()
    const site = await aSite(service)
    const { booking } = (await service.post(`${site.path}/bookings`, aDinner(site)).expect(201)).body
    const named = await service.get(`/turns/${booking.turnId}?site=${site.siteId}`).expect(200)
    expect((await service.get(`/turns/${booking.turnId}`).expect(200)).text).toBe(named.text)
  })

  test('looks by a stylesheet of its own', async () => {
    const service = await aService()
    const { headers, text } = await service.get('/style.css').expect(200)
    expect(headers['content-type']).toBe('text/css; charset=utf-8')
    for (const words of ['prefers-color-scheme: dark', '@media print', 'max-width'])
      expect(text).toContain(words)
  })
})

describe('a page that cannot be shown', () => {
  const bySight = 'text/html,application/xhtml+xml;q=0.9,*/*;q=0.8'

  test('is answered with a page that says why in plain words', async () => {
    const service = await aService()
    await aSite(service)
    const cases = [
      ['/?site=site_none', 404, 'There is no site site_none here.'],
      ['/?week=2100-01-01', 422, '/week: expected a day from 2001 to 2098'],
      ['/turns/turn_none', 404, 'There is no turn turn_none here.'],
      ['/turns/%3Cscript%3E', 404, 'There is no turn &lt;script&gt; here.'],
    ] as const
    for (const [path, status, words] of cases) {
      const answer = await service.get(path)
      expect(answer.status, path).toBe(status)
      expect(answer.headers['content-type'], path).toBe('text/html; charset=utf-8')
      expect(answer.text, path).toContain(`<p>${words}</p>`)
      expect(answer.text, path).toContain('<a href="/">To the week</a>')
    }
  })

  test('is one too where a browser was sent to an address that is none; programs get the problem document', async () => {
    const service = await aService()
    const lost = await service.get('/sites/alder-row').set('Accept', bySight).expect(404)
    expect(lost.headers['content-type']).toBe('text/html; charset=utf-8')
    expect(lost.text).toContain('<h1>There is nothing at this address</h1>')
    const toPrograms = [
      await service.get('/sites/alder-row'),
      await service.get('/v1/nothing').set('Accept', bySight),
      await service.get('/v1/sites/site_none').set('Accept', bySight),
    ]
    for (const answer of toPrograms) {
      expect(answer.status).toBe(404)
      expect(answer.headers['content-type']).toBe('application/problem+json; charset=utf-8')
    }
  })
})

describe('what is filled into a page', () => {
  test('is escaped, unless it was made by the same tag', () => {
    const inner = html`<b>${'<i>'}</b>`
    expect(html`<p title="${'"'}">${inner}${[1, '&', null, [inner]]}${false}${undefined}</p>`.text).toBe(
      '<p title="&quot;"><b>&lt;i&gt;</b>1&amp;<b>&lt;i&gt;</b></p>',
    )
  })
})

describe('numbers in words', () => {
  const judged = (fields: object) =>
    Judgement.parse({
      policyId: 'policy_first',
      verdict: 'fits',
      reasons: [],
      judgedAt: NOW,
      staffedWindowSeconds: 4_259,
      neededSeconds: 3_601,
      lowerBoundSeconds: 0,
      proof: null,
      readyAt: NOW,
      slackSeconds: 599,
      hands: { needed: 1, onDuty: 4, assumed: 0 },
      ...fields,
    })

  test('time needed is rounded up, time there and to spare down', () => {
    expect(neededWords(judged({}))).toBe('needs 61 min of 70 min there')
    expect(slackWords(judged({}))).toBe('9 min to spare')
    expect(slackWords(judged({ slackSeconds: -61 }))).toBe('2 min short')
    expect(slackWords(judged({ slackSeconds: 0 }))).toBe('0 min to spare')
    expect(handsWords(judged({}))).toBe('1 hand of 4 on duty')
  })

  test('without a plan it says so', () => {
    expect(neededWords(judged({ neededSeconds: null }))).toBe('70 min there, no plan found')
    expect(slackWords(judged({ slackSeconds: null }))).toBeNull()
  })

  test('over two hours it counts hours', () => {
    const times = { neededSeconds: 7_200, staffedWindowSeconds: 690 * 60, slackSeconds: 3 * 3600 }
    expect(neededWords(judged(times))).toBe('needs 120 min of 11 h 30 min there')
    expect(slackWords(judged(times))).toBe('3 h to spare')
  })

  test('what is short is told by the clock as it is shown, ready times rounded up', () => {
    // Ready at twelve seconds past, which is shown as the next minute.
    const readyAt = NOW + 12_000
    expect(slackWords(judged({ readyAt, slackSeconds: -12 }))).toBe('1 min short')
    expect(slackWords(judged({ readyAt, slackSeconds: 108 }))).toBe('1 min to spare')
  })
})

describe('a week', () => {
  test('has seven days of the wall clock, one of them an hour longer when the clocks go back', () => {
    const week = weekOf('2026-10-25', 'Europe/London')
    expect(week.monday).toBe('2026-10-19')
    expect(week.days.map(({ label }) => label.slice(0, 3))).toEqual([
      'Mon',
      'Tue',
      'Wed',
      'Thu',
      'Fri',
      'Sat',
      'Sun',
    ])
    const hours = week.days.map(({ fromAt, toAt }) => (toAt - fromAt) / 3_600_000)
    expect(hours).toEqual([24, 24, 24, 24, 24, 24, 25])
    expect(week.days.slice(1).map(({ fromAt }) => fromAt)).toEqual(
      week.days.slice(0, -1).map(({ toAt }) => toAt),
    )
  })
})
