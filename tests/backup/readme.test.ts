/** The commands of the README as they stand, called from somewhere else than the program's own folder. */
import { spawnSync } from 'node:child_process'
import { mkdirSync, readFileSync } from 'node:fs'
import path from 'node:path'
import { expect, test } from 'vitest'
import { isBuilt } from '../../scripts/prepare.mjs'
import { root } from '../a-started-service.ts'
import { aFolder } from '../store/a-database-file.ts'
import { bookingsOf, namesBeside, twoStates } from './two-states.ts'

const readme = readFileSync(path.join(root, 'README.md'), 'utf8')
const [, commands = ''] = /## Backup and restore\n\n```sh\n([\s\S]*?)```/.exec(readme) ?? []

test('who follows the README backs up and restores, with files meant from where the commands are called', async () => {
  // The commands would build it, and take it away from the tests that run at the same time.
  expect(isBuilt(), 'dist is from other sources: `npm test` builds it first').toBe(true)
  const { database } = await twoStates()
  const folder = aFolder()
  mkdirSync(path.join(folder, 'data'))
  const called = commands.trim().split('\n')
  expect(called.map((line) => line.split(' ')[2])).toEqual(['backup', 'restore'])
  for (const line of called) {
    const [, ...words] = line.split(' ')
    const { status, stderr } = spawnSync('npm', ['--prefix', root, '--silent', ...words], {
      cwd: folder,
      env: { ...process.env, INIT_CWD: undefined, DATABASE_FILE: database },
      encoding: 'utf8',
      shell: process.platform === 'win32',
    })
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' })
  }
  const backup = path.join(folder, 'data', 'backup.sqlite')
  expect(namesBeside(backup)).toEqual(['backup.sqlite'])
  expect(bookingsOf(backup)).toEqual(['booking_dinner', 'booking_supper'])
  expect(bookingsOf(database)).toEqual(['booking_dinner', 'booking_supper'])
  expect(namesBeside(database)).toContainEqual(expect.stringMatching(/^hall\.sqlite\.before-\d{8}T\d{6}Z$/))
}, 60_000)
