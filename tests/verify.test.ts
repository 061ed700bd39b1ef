/** What the command says of files that somebody has laid hands on, one thing at a time. */
import { spawnSync } from 'node:child_process'
import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import Database from 'better-sqlite3'
import { afterAll, beforeAll, describe, expect, onTestFinished, test } from 'vitest'
import { z } from 'zod'
import { loadDemo } from '../seed/load-demo.ts'
import { SiteId } from '../src/domain/ids.ts'
import { Instant } from '../src/domain/instant.ts'
import { openSqliteStore } from '../src/store/open-sqlite-store.ts'
import { planTextHash } from '../src/store/plan-hash.ts'
import { openStoredFile } from '../src/store/stored-file.sqlite.ts'
import { invariantFaults } from '../src/verify/invariant-faults.ts'
import { windowsOfBookings } from '../src/verify/windows-of-bookings.ts'
import { inProcessDecider } from '../src/worker/in-process-decider.ts'
import { root } from './a-started-service.ts'
import { NOW } from './api/a-service.ts'
import { type Asked, aClient } from './life/a-client.ts'
import { aServiceOnFile } from './life/a-service-on-file.ts'
import { verified } from './life/verified.ts'
import { aFolder } from './store/a-database-file.ts'
import { aFileOfBefore } from './store/a-file-of-before.ts'

const SITE = 'site_harrow-lane'
const hall = { folder: '', file: '' }

/** The demo with some life in it: something asked, changed, cancelled, closed, erased, and answered twice. */
beforeAll(async () => {
  hall.folder = mkdtempSync(path.join(os.tmpdir(), 'turnwright-verify-'))
  hall.file = path.join(hall.folder, 'hall.sqlite')
  const store = await openSqliteStore({ file: hall.file })
  await loadDemo(store, inProcessDecider(store), NOW)
  store.close()
  const service = await aServiceOnFile(hall.file)
  const client = aClient(service.url)
  const ask = async (asked: Asked) => {
    const path = `/v1/sites/${SITE}/${asked.path}`
    const answered = await client.ask({ ...asked, path })
    if (answered.status >= 300) throw new Error(`${path}: ${answered.status} ${answered.text}`)
    return answered
  }
  const meeting = {
    title: 'Choir practice',
    roomId: 'room_garden',
    layoutId: 'layout_garden-meeting',
    headcount: 8,
    startsAt: '2026-12-01T18:00',
    endsAt: '2026-12-01T19:00',
  }
  const headers = { 'idempotency-key': 'choir' }
  const choir = await ask({ method: 'POST', path: 'bookings', body: meeting, headers })
  await ask({ method: 'POST', path: 'bookings', body: meeting, headers })
  const choirPath = `bookings/${JSON.parse(choir.text).booking.id}`
  await ask({ method: 'PATCH', path: choirPath, body: { headcount: 9 }, headers: { 'if-match': '"1"' } })
  await ask({ method: 'DELETE', path: 'bookings/booking_demo-10' })
  const crew = { kind: 'hands', hands: 5, adults: true }
  await ask({ method: 'PATCH', path: 'shifts/shift_saturday', body: { crew }, headers: { 'if-match': '*' } })
  await ask({ method: 'DELETE', path: 'closures/closure_garden-floor', headers: { 'if-match': '*' } })
  await ask({
    method: 'PATCH',
    path: 'people/person_pip',
    body: { name: 'Pip' },
    headers: { 'if-match': '*' },
  })
  client.close()
  await service.stop()
}, 120_000)
afterAll(() => rmSync(hall.folder, { recursive: true, force: true }))

/** A copy of the file in a folder of its own, with statements run past all guards. */
function tampered(...statements: readonly string[]): string {
  const file = path.join(aFolder(), 'copy.sqlite')
  copyFileSync(hall.file, file)
  const raw = new Database(file)
  raw.pragma('foreign_keys = OFF')
  raw.pragma('ignore_check_constraints = ON')
  for (const name of raw.prepare(`SELECT name FROM sqlite_master WHERE type = 'trigger'`).pluck().all())
    raw.exec(`DROP TRIGGER ${name}`)
  for (const statement of statements) {
    const { changes } = raw.prepare(statement).run()
    if (changes === 0) throw new Error(`nothing was changed by ${statement}`)
  }
  raw.close()
  return file
}

/** In one of a booking, a turn, a plan … of the demo, called by the number of its booking. */
const set = (table: string, what: string, where: string) => `UPDATE ${table} SET ${what} WHERE ${where}`

interface Case {
  readonly done: string
  readonly statements: readonly string[]
  /** Everything that is said, the site and broken invariants left out. */
  readonly said: readonly string[]
  /** Of broken invariants: among others. */
  readonly broken?: string
}

const unreadable = (where: string, why: string, isPersonal = false): readonly string[] => [
  `${where}: cannot be read: ${why}`,
  ...(isPersonal ? [] : [`what the audit gives: cannot be compared with what is stored: ${why}`]),
]
const ofNoEntry = (entry: number, named: number) =>
  `entry ${entry} of the change log: names entry ${named} of the audit, which is not of this site or has its place elsewhere`

const cases: readonly Case[] = [
  {
    done: 'a booking has lost its title',
    statements: [set('booking', `title = ''`, `id = 'booking_demo-1'`)],
    said: unreadable('booking booking_demo-1', 'title: Too small: expected string to have >=1 characters'),
    broken: 'cannot be asked: title: Too small: expected string to have >=1 characters',
  },
  {
    done: 'a layout is no JSON any more',
    statements: [set('layout', `document = '{"'`, `id = 'layout_long-games'`)],
    said: unreadable('layout layout_long-games', 'Unterminated string in JSON at position 2'),
  },
  {
    done: 'somebody has no name any more',
    statements: [set('person_details', `name = ' '`, `person_id = 'person_pip'`)],
    said: unreadable(
      'details of person_pip',
      'name: Too small: expected string to have >=1 characters',
      true,
    ),
  },
  {
    done: 'the site has no zone any more',
    statements: [`UPDATE site SET zone = ''`],
    said: unreadable('site', 'zone: Too small: expected string to have >=1 characters'),
  },
  {
    done: 'a closure is found at another time than it says',
    statements: ['UPDATE closure SET from_at = from_at + 1'],
    said: ['closure closure_garden-floor: its column fromAt says 1796216400001, its document 1796216400000'],
  },
  {
    done: 'a shift is found with another person than it names',
    statements: [set('shift', `person_id = 'person_pip'`, `id = 'shift_rae'`)],
    said: ['shift shift_rae: its column personId says person_pip, its document person_rae'],
  },
  {
    done: 'a room is found with fewer sections than it is made of',
    statements: [`DELETE FROM room_section WHERE section_id = 'section_long-north'`],
    said: ['room room_long: room_section does not say of which sections it is made'],
  },
  {
    done: 'a booking names a turn that is not there',
    statements: [set('booking', `turn_id = 'turn_demo-77'`, `id = 'booking_demo-1'`)],
    said: [
      'turn turn_demo-1: prepares booking_demo-1, which names turn_demo-77',
      'booking booking_demo-1: its turn turn_demo-77 is not there',
      'booking booking_demo-1: is not what the audit says: turnId',
    ],
  },
  {
    done: 'the turn of a cancelled booking stands',
    statements: [set('turn', `status = 'failing'`, `id = 'turn_demo-10'`)],
    said: [
      'turn turn_demo-10: stands, and booking_demo-10 is cancelled',
      'turn turn_demo-10: is not what the audit says: status',
    ],
  },
  {
    done: 'the turn of a booking that stands is dropped',
    statements: [set('turn', `status = 'dropped'`, `id = 'turn_demo-1'`)],
    said: [
      'turn turn_demo-1: is dropped, and booking_demo-1 stands',
      'plan of turn_demo-1: is kept, and its turn is dropped',
      'turn turn_demo-1: is not what the audit says: status',
    ],
    broken: 'booking_demo-1 has no turn',
  },
  {
    done: 'a plan is another one',
    statements: [
      set(
        'plan',
        `document = json_set(document, '$.readyAt', json_extract(document, '$.readyAt') + 60000)`,
        `turn_id = 'turn_demo-1'`,
      ),
    ],
    said: [
      'plan of turn_demo-1: its hash is not that of what is stored',
      'plan of turn_demo-1: its turn says other times for its start and its end',
    ],
    broken: 'turn_demo-1: it is not ready when its last task ends',
  },
  {
    done: 'a plan has another hash',
    statements: [set('plan', `hash = 'abc'`, `turn_id = 'turn_demo-1'`)],
    said: [
      'plan of turn_demo-1: its hash is not that of what is stored',
      'turn turn_demo-1: is not what the audit says: planHash',
    ],
  },
  {
    done: 'a plan cannot be read',
    statements: [set('plan', `document = '{}', hash = '${planTextHash('{}')}'`, `turn_id = 'turn_demo-1'`)],
    said: [
      'plan of turn_demo-1: cannot be read: tasks: Invalid input: expected array, received undefined',
      'turn turn_demo-1: is not what the audit says: planHash',
    ],
  },
  {
    done: 'a plan is gone',
    statements: [`DELETE FROM plan WHERE turn_id = 'turn_demo-1'`],
    said: [
      'plan of turn_demo-1: is not there, and its turn speaks of it',
      'turn turn_demo-1: is not what the audit says: planHash',
    ],
    broken: 'turn_demo-1 is said to be ready and has no plan',
  },
  {
    done: 'a booking does not hold all of its room',
    statements: [
      `DELETE FROM section_occupancy WHERE booking_id = 'booking_demo-1' AND section_id = 'section_long-north'`,
    ],
    said: [
      'section_long-north held by booking_demo-1: is not there, and follows from the booking and its room',
    ],
  },
  {
    done: 'a booking holds more than its room',
    statements: [
      `INSERT INTO section_occupancy SELECT booking_id, 'section_upper', from_at, to_at, blocking
        FROM section_occupancy WHERE booking_id = 'booking_demo-1' LIMIT 1`,
    ],
    said: ['section_upper held by booking_demo-1: follows from no booking and its room'],
  },
  {
    done: 'a booking does not keep others out',
    statements: [set('section_occupancy', 'blocking = 0', `booking_id = 'booking_demo-8'`)],
    said: ['section_garden held by booking_demo-8: keeps nobody out, and the booking stands'],
  },
  {
    done: 'a cancelled booking keeps others out',
    statements: [set('section_occupancy', 'blocking = 1', `booking_id = 'booking_demo-10'`)],
    said: ['section_long-south held by booking_demo-10: keeps others out, and the booking is cancelled'],
  },
  {
    done: 'two bookings hold one section at once',
    statements: [
      set(
        'section_occupancy',
        'to_at = to_at + 80000000',
        `booking_id = 'booking_demo-1' AND section_id = 'section_long-north'`,
      ),
    ],
    said: [
      'section_long-north held by booking_demo-1: is held at another time than the booking says',
      'section_long-north: booking_demo-1 and booking_demo-2 hold it at once',
    ],
  },
  {
    done: 'a booking was changed past the service',
    statements: [set('booking', 'headcount = 61', `id = 'booking_demo-1'`)],
    said: ['booking booking_demo-1: is not what the audit says: headcount'],
    broken: 'turn_demo-2 was judged on other inputs than it has',
  },
  {
    done: 'the version of the site is another one',
    statements: ['UPDATE site SET planning_version = planning_version + 1'],
    said: [`site ${SITE}: is not what the audit says: planningVersion`],
  },
  {
    done: 'an entry of the audit is gone',
    statements: ['DELETE FROM audit WHERE sequence = 3'],
    said: [
      'entry 4 of the audit: is at version 4, the one before it at 2',
      ofNoEntry(66, 3),
      ofNoEntry(67, 3),
      'booking booking_demo-2: is stored, and the audit does not know of it',
      'turn turn_demo-2: is stored, and the audit does not know of it',
    ],
  },
  {
    done: 'an entry of the audit starts from another row than was left',
    statements: [
      set('audit', `effects = json_set(effects, '$[0].before.headcount', 3)`, `action = 'cancel'`),
    ],
    said: ['entry 14 of the audit: starts from another booking booking_demo-10 than the one before it left'],
  },
  {
    done: 'an entry of the audit tells of another row',
    statements: [set('audit', `effects = json_set(effects, '$[0].after.headcount', 3)`, 'sequence = 3')],
    said: ['booking booking_demo-2: is not what the audit says: headcount'],
  },
  {
    done: 'an entry of the audit cannot be read',
    statements: [set('audit', `effects = '[3]'`, 'sequence = 11')],
    said: [
      'entry 11 of the audit: cannot be read: effects.0: Invalid input: expected object, received number',
      'entry 12 of the audit: is at version 12, the one before it at 10',
      ofNoEntry(82, 11),
    ],
  },
  {
    done: 'the change log does not tell of a booking',
    statements: [`DELETE FROM change_log WHERE resource_id = 'booking_demo-1'`],
    said: ['entry 2 of the audit: the change log does not tell of booking booking_demo-1'],
  },
  {
    done: 'the change log tells of a booking at the wrong place',
    statements: [set('change_log', 'audit_sequence = 3', `resource_id = 'turn_demo-1'`)],
    said: [
      'entry 2 of the audit: the change log does not tell of turn turn_demo-1',
      'entry 65 of the change log: tells of turn turn_demo-1, of which entry 3 of the audit does not',
    ],
  },
  {
    done: 'the change log tells of a booking before its time',
    statements: [set('change_log', 'audit_sequence = 9', `resource_id = 'turn_demo-1'`)],
    said: ['entry 2 of the audit: the change log does not tell of turn turn_demo-1', ofNoEntry(65, 9)],
  },
  {
    done: 'the change log says another time',
    statements: [set('change_log', 'at = at + 1', `resource_id = 'booking_demo-1'`)],
    said: ['entry 64 of the change log: is of another time than entry 2 of the audit'],
  },
  {
    done: 'a turn was judged on something else',
    statements: [set('turn', `input_hash = 'abc'`, `id = 'turn_demo-1'`)],
    said: ['turn turn_demo-1: is not what the audit says: inputHash'],
    broken: 'turn_demo-1 was judged on other inputs than it has',
  },
  {
    done: 'there is no policy in force',
    statements: ['UPDATE policy SET retired_at = 1795446000000'],
    said: ['policy policy_demo: is not what the audit says: retiredAt'],
    broken: 'there are bookings and no policy',
  },
]

const OF_SITE = `${SITE}: `
const OF_INVARIANTS = `${OF_SITE}invariants: `

describe('nothing is said', () => {
  test('of a file that nobody has laid hands on, nor is it changed by being looked at', async () => {
    const before = readFileSync(hall.file)
    expect(await verified(hall.file, NOW)).toEqual([])
    expect(readFileSync(hall.file).equals(before)).toBe(true)
  })

  test('of what is just being written and not yet there, nor is the writer kept waiting', async () => {
    const file = tampered('UPDATE site SET name = name')
    const raw = new Database(file)
    raw.exec(`BEGIN IMMEDIATE; UPDATE booking SET headcount = 1 WHERE id = 'booking_demo-1'`)
    expect(await verified(file, NOW)).toEqual([])
    raw.exec('COMMIT')
    raw.close()
    expect(await verified(file, NOW)).toContain(
      `${OF_SITE}booking booking_demo-1: is not what the audit says: headcount`,
    )
  })

  test('of a booking that has begun, whatever it was judged on', async () => {
    const file = tampered(set('turn', `input_hash = 'abc'`, `id = 'turn_demo-1'`))
    const { doorsAt } = z
      .object({ doorsAt: Instant })
      .parse(readRow(file, `SELECT doors_at AS doorsAt FROM booking WHERE id = 'booking_demo-1'`))
    const isBroken = async (now: Instant) =>
      (await verified(file, now)).some((line) => line.startsWith(OF_INVARIANTS))
    expect(await isBroken(NOW)).toBe(true)
    expect(await isBroken(doorsAt)).toBe(false)
  })
})

function readRow(file: string, statement: string): unknown {
  const raw = new Database(file, { readonly: true })
  try {
    return raw.prepare(statement).get()
  } finally {
    raw.close()
  }
}

describe('it is said when', () => {
  test.each(cases)('$done', async ({ statements, said, broken }) => {
    const lines = await verified(tampered(...statements), NOW)
    const others = lines.filter((line) => !line.startsWith(OF_INVARIANTS))
    const ofDatabase = others.filter((line) => line.startsWith('the file: '))
    expect(others.filter((line) => !ofDatabase.includes(line))).toEqual(said.map((line) => OF_SITE + line))
    if (broken !== undefined) expect(lines).toContain(OF_INVARIANTS + broken)
  })

  test('a row refers to one that is not there', async () => {
    const lines = await verified(
      tampered(set('booking', `room_id = 'room_attic'`, `id = 'booking_demo-1'`)),
      NOW,
    )
    expect(lines).toContain('the file: row 1 of booking: refers to a row of room that is not there')
  })

  test('an answer that is kept cannot be read', async () => {
    expect(await verified(tampered(`UPDATE idempotency SET headers = '{"'`), NOW)).toEqual([
      'the file: answer kept under choir: cannot be read: Unterminated string in JSON at position 2',
    ])
  })

  test('the site is called by something that is no id', async () => {
    const lines = await verified(tampered(`UPDATE site SET id = 'hall'`), NOW)
    expect(lines).toContain('hall: site: cannot be read: expected an id that looks like site_…')
    expect(lines).toContain('the file: damage: there may be more: 100 are told')
  })

  test('pages of the file are damaged', async () => {
    const file = tampered('UPDATE site SET name = name')
    const bytes = readFileSync(file)
    // Those in which a plan says by what it was found, whichever of them are in use.
    for (let at = bytes.indexOf('"solverVersion"'); at >= 0; at = bytes.indexOf('"solverVersion"', at)) {
      const page = 4096 * Math.floor(at / 4096)
      bytes.fill(0x5a, page, page + 4096)
    }
    writeFileSync(file, bytes)
    expect((await verified(file, NOW))[0]).toMatch(/^the file: damage: /)
  })
})

describe('the pieces in which a site is looked at', () => {
  test('do not decide what is found', async () => {
    const file = tampered(
      set('turn', `input_hash = 'abc'`, `id IN ('turn_demo-2', 'turn_demo-9')`),
      set('turn', 'release_at = release_at + 60000', `id = 'turn_demo-5'`),
    )
    const stored = openStoredFile(file)
    onTestFinished(() => stored.close())
    const found = async (bookingsMost: number) => {
      const said = new Set<string>()
      for await (const { what } of invariantFaults(stored, SiteId.parse(SITE), NOW, bookingsMost))
        said.add(what)
      return [...said].sort()
    }
    const atOnce = await found(1_000)
    expect(atOnce).toContain('turn_demo-9 was judged on other inputs than it has')
    expect(atOnce).toContain('turn_demo-5 does not start when its predecessors are clear')
    for (const most of [1, 2, 3, 5]) expect(await found(most)).toEqual(atOnce)
  })

  test('hold each booking once, are no longer than a month and hold no more than they may', () => {
    const day = (count: number) => Instant.parse(NOW + count * 86_400_000)
    const doors = [0, 0, 0, 1, 2, 30, 31, 32, 33, 400, 800, 801].map(day)
    const windows = [...windowsOfBookings(doors, 2)]
    expect(windows.map(({ fromAt, toAt }) => doors.filter((at) => at >= fromAt && at < toAt).length)).toEqual(
      [3, 2, 2, 2, 1, 2],
    )
    for (const { fromAt, toAt } of windows) expect(toAt - fromAt).toBeLessThanOrEqual(31 * 86_400_000)
    expect([...windowsOfBookings([], 2)]).toEqual([])
  })
})

const run = (...args: readonly string[]) => {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...args], { encoding: 'utf8' })
  return { status, stdout, stderr }
}
const program = path.join(root, 'dist', 'src', 'verify.js')

describe('the command', () => {
  const now = '2026-11-23T09:00:00-06:00'

  test('ends with 0 and says what it has looked at', () => {
    expect(run(hall.file, '--now', now)).toEqual({
      status: 0,
      stdout: `${hall.file} as of 2026-11-23T15:00:00Z: 1 site, 10 bookings, 10 turns, 16 audit entries: nothing is wrong.\n`,
      stderr: '',
    })
  })

  test('ends with 1 and one line a fault', () => {
    const file = tampered(set('turn', `input_hash = 'abc'`, `id = 'turn_demo-1'`))
    const { status, stdout } = run('--now', now, file)
    expect(status).toBe(1)
    expect(stdout.split('\n')).toEqual([
      `${OF_SITE}turn turn_demo-1: is not what the audit says: inputHash`,
      `${OF_INVARIANTS}turn_demo-1 was judged on other inputs than it has`,
      `${file} as of 2026-11-23T15:00:00Z: 1 site, 10 bookings, 10 turns, 16 audit entries: 2 faults.`,
      '',
    ])
  })

  const usage =
    'Call it so: npm run verify -- DATABASE_FILE [--now 2026-11-23T09:00:00-06:00]; without --now it is as of this moment.'

  test.each([
    [[], `The database file is missing. ${usage}`],
    [['a', 'b'], `One database file at a time. ${usage}`],
    [['a', '--now', 'noon'], `--now noon is no moment with its offset. ${usage}`],
    [
      ['a', '--now', '2026-11-23T09:00:00'],
      `--now 2026-11-23T09:00:00 is no moment with its offset. ${usage}`,
    ],
    [['a', '--mend'], /^Unknown option '--mend'.*Call it so: /],
    [
      ['nowhere.sqlite'],
      'nowhere.sqlite does not exist. Start the service once, which creates it, and try again.',
    ],
    [[path.join(root, 'package.json')], /package\.json is not a database\. Name another database file/],
    [[root], /cannot be opened\. See that it is a file/],
  ])('called with %j ends with 2 and says why in one line', (args, message) => {
    const { status, stdout, stderr } = run(...args)
    expect({ status, stdout, lines: stderr.trimEnd().split('\n').length }).toEqual({
      status: 2,
      stdout: '',
      lines: 1,
    })
    if (typeof message === 'string') expect(stderr).toBe(`${message}\n`)
    else expect(stderr).toMatch(message)
  })

  test('ends with 2 when the file is of an older or a newer version, or of another program, and leaves it as it is', () => {
    const { file: older, raw } = aFileOfBefore('0002_the-decision-whole')
    raw.close()
    const newer = tampered(`INSERT INTO __drizzle_migrations (hash, created_at) VALUES ('x', 4000000000000)`)
    const other = path.join(aFolder(), 'other.sqlite')
    new Database(other).exec('CREATE TABLE recipe (name TEXT)').close()
    for (const [file, why] of [
      [older, 'is not up to date. Start the service once, which migrates it, and try again.'],
      [
        newer,
        'was written by a newer version of this program. Install that version, or restore a backup from before.',
      ],
      [other, 'belongs to another program. Name another database file.'],
    ] as const) {
      const before = readFileSync(file)
      expect(run(file)).toEqual({ status: 2, stdout: '', stderr: `${file} ${why}\n` })
      expect(readFileSync(file).equals(before)).toBe(true)
    }
  })
})
