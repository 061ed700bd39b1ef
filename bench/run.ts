/**
 * `npm run bench`: speed, on this machine, now. Read the ratios, both sides of which are taken in this one run; the
 * milliseconds are this machine's. Nothing here decides a test.
 */
import { mkdtempSync, rmSync } from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { buildProgram } from '../scripts/prepare.mjs'
import { bookingOn, fillBusySite, SITE } from './a-busy-site.ts'
import { type Asked, atRate, type LoadResult, quantile, withConnections } from './load.ts'
import { bareService, localService } from './local-service.ts'
import { listeners, plannedTogether, rateChange, restOfCrew, retiming } from './whole-decision.ts'

buildProgram()
const folder = mkdtempSync(path.join(os.tmpdir(), 'turnwright-bench-'))
const rows: string[][] = []
const report = (what: string, measured: string, goal: string, reached: boolean) =>
  rows.push([what, measured, goal, reached ? 'yes' : 'NO'])
const ms = (value: number) => `${value.toFixed(1)} ms`
const answered = (result: LoadResult) =>
  Object.entries(result.countByStatus)
    .map(([status, count]) => `${count} × ${status}`)
    .join(', ')

/** Asked for in the open afternoon of each room, day after day: two turns are planned for each. */
function requests(
  count: number,
  firstDay: number,
  prefix: string,
  slot = '16:10-17:20-meeting',
  onlyRoom: number | null = null,
): Asked[] {
  return Array.from({ length: count }, (_, index) => {
    const room = onlyRoom ?? (index % 6) + 1
    const day = firstDay + (onlyRoom === null ? Math.floor(index / 6) : index)
    const booking = bookingOn(day, room, slot, `${prefix}${index}`)
    const text = (at: number) => new Date(at).toISOString()
    return {
      path: `/v1/sites/${SITE.id}/bookings`,
      body: {
        title: booking.title,
        roomId: booking.roomId,
        layoutId: booking.layoutId,
        headcount: booking.headcount,
        doorsAt: text(booking.doorsAt),
        startsAt: text(booking.startsAt),
        endsAt: text(booking.endsAt),
        clearAt: text(booking.clearAt),
      },
    }
  })
}
const notes = (count: number): Asked[] =>
  Array.from({ length: count }, (_, index) => ({
    path: '/notes',
    body: { title: `Note ${index}`, headcount: 30 },
  }))

async function onBusySite<Result>(
  bookings: number,
  use: (url: string, tasksMost: number) => Promise<Result>,
): Promise<Result> {
  const file = path.join(folder, `busy-${bookings}-${rows.length}.sqlite`)
  const { tasksMost } = await fillBusySite(file, bookings)
  const service = await localService(file)
  try {
    await withConnections(service.url, 4, requests(60, 20, 'warm'))
    return await use(service.url, tasksMost)
  } finally {
    await service.stop()
    rmSync(file, { force: true })
  }
}

async function openLoop(): Promise<void> {
  await onBusySite(5_000, async (url, tasksMost) => {
    const result = await atRate(url, 20, requests(400, 40, 'open'))
    const p99 = quantile(result.milliseconds, 0.99)
    const median = ms(quantile(result.milliseconds, 0.5))
    report(
      `20 requests/s on 5,000 bookings, turns of up to ${tasksMost} tasks, ${answered(result)}`,
      `median ${median}, p99 ${ms(p99)}`,
      'p99 ≤ 100 ms',
      p99 <= 100,
    )
  })
}

/** The bare handler is measured before and after, so that a machine that slows down meanwhile does not decide. */
async function closedLoop(): Promise<void> {
  const bare = await bareService(path.join(folder, 'bare.sqlite'))
  const bareRate = () => rateOf(withConnections(bare.url, 8, notes(2_000)))
  await bareRate()
  await onBusySite(5_000, async (url, tasksMost) => {
    const before = await bareRate()
    const result = await withConnections(url, 8, requests(600, 40, 'closed'))
    const bareMean = (before + (await bareRate())) / 2
    const rate = 600 / result.seconds
    report(
      `8 connections: bookings decided (workMost 60, turns of up to ${tasksMost} tasks, ${answered(result)}) over bare inserts`,
      `${rate.toFixed(0)}/s over ${bareMean.toFixed(0)}/s = 1/${(bareMean / rate).toFixed(1)}`,
      '≥ 1/20',
      rate >= bareMean / 20,
    )
  })
  await bare.stop()
}

const rateOf = async (load: Promise<LoadResult>) => {
  const { milliseconds, seconds } = await load
  return milliseconds.length / seconds
}

/** Both services run side by side and are asked in turns, so that a machine that slows down slows both. */
async function growth(): Promise<void> {
  const sizes = [1_000, 100_000]
  const files = sizes.map((size) => path.join(folder, `growth-${size}.sqlite`))
  for (const [index, size] of sizes.entries()) await fillBusySite(files[index]!, size)
  const services = await Promise.all(files.map((file) => localService(file)))
  const milliseconds: number[][] = [[], []]
  for (let round = 0; round < 12; round += 1) {
    for (const [index, service] of services.entries()) {
      const { milliseconds: taken } = await withConnections(
        service.url,
        1,
        requests(18, 10 + 3 * round, `g${round}-`),
      )
      // The first rounds warm the service up.
      if (round >= 3) milliseconds[index]!.push(...taken)
    }
  }
  for (const service of services) await service.stop()
  const [few, many] = milliseconds.map((taken) =>
    quantile(
      [...taken].sort((x, y) => x - y),
      0.5,
    ),
  ) as [number, number]
  report(
    '1,000 against 100,000 stored bookings, equal local density, medians',
    `${ms(few)} against ${ms(many)} = ${(many / few).toFixed(2)}`,
    'ratio ≤ 1.3',
    many / few <= 1.3,
  )
}

async function start(): Promise<void> {
  const file = path.join(folder, 'start.sqlite')
  await fillBusySite(file, 1_000)
  const times: number[] = []
  let megabytes = 0
  for (let round = 0; round < 5; round += 1) {
    const service = await localService(file)
    times.push(service.readyMilliseconds)
    if (round === 4) {
      await withConnections(service.url, 4, requests(60, 20, 'memory'))
      megabytes = service.residentMegabytes()
    }
    await service.stop()
  }
  const median = quantile(
    [...times].sort((a, b) => a - b),
    0.5,
  )
  report('node dist/src/main.js until /readyz, median of 5', ms(median), '≤ 2 s', median <= 2_000)
  report('resident memory after 60 bookings', `${megabytes.toFixed(0)} MB`, '≤ 300 MB', megabytes <= 300)
}

const reporting = { folder, report, requests }
const parts: Record<string, () => Promise<void>> = {
  start,
  openLoop,
  closedLoop,
  growth,
  restOfCrew: () => restOfCrew(reporting),
  plannedTogether: () => plannedTogether(reporting),
  retiming: () => retiming(reporting),
  rateChange: () => rateChange(reporting),
  listeners: () => listeners(reporting),
}
const chosen = process.argv.slice(2)
try {
  for (const [name, part] of Object.entries(parts)) {
    if (chosen.length === 0 || chosen.includes(name)) await part()
  }
} finally {
  rmSync(folder, { recursive: true, force: true })
}

const headings = ['measured', 'figure', 'goal', 'reached']
const widths = headings.map((_, column) =>
  Math.max(...[headings, ...rows].map((row) => row[column]?.length ?? 0)),
)
console.log(`Node ${process.version}, ${os.cpus().length} × ${os.cpus()[0]?.model ?? 'unknown processor'}`)
for (const row of [headings, ...rows])
  console.log(row.map((cell, column) => cell.padEnd(widths[column] ?? 0)).join('  '))
process.exit(rows.every((row) => row[3] === 'yes') ? 0 : 1)
