/** The README is followed to the letter: its commands are run, and what it says they print is what they print. */
import { spawnSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import path from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { reasonCodes } from '../src/domain/reason.ts'
import { overridableInWords } from '../src/scheduler/decide/overridable.ts'
import { aStartedService, root, type StartedService } from './a-started-service.ts'

const readme = readFileSync(path.join(root, 'README.md'), 'utf8')

/** Each block of commands in the part on the three uses, with what is printed under it. */
const steps = [
  ...readme.slice(readme.indexOf('## Three uses')).matchAll(/```sh\n([\s\S]*?)```\n```text\n([\s\S]*?)```/g),
].map(([, commands = '', printed = '']) => ({ commands, printed }))

const hasCurl = spawnSync('curl', ['--version']).status === 0
// On a build machine the tools must be there; elsewhere a missing one is said and skipped.
if (!hasCurl && process.env.CI) throw new Error('curl is missing: install it, the README is followed with it')

/** Ids are made up anew each time. */
const withoutIds = (text: string) => text.replaceAll(/\b(turn|booking)_[a-z0-9]{16}\b/g, '$1_…')

describe.skipIf(!hasCurl)('a new user who follows the README', () => {
  let service: StartedService
  beforeAll(async () => {
    service = await aStartedService()
  })
  afterAll(() => service.stop())

  test('gets the printed outputs, one block after the other', () => {
    expect(steps.length).toBeGreaterThanOrEqual(6)
    // One shell for all: later blocks use what earlier ones have set.
    const marked = steps.map(({ commands }) => `${commands}\necho ----`).join('\n')
    const script = marked.replaceAll('http://127.0.0.1:8080', service.url)
    const run = spawnSync('bash', ['-c', script], { cwd: service.folder, encoding: 'utf8' })
    expect(run.stderr).toBe('')
    const outputs = run.stdout.split('----\n').slice(0, -1)
    expect(outputs.map(withoutIds)).toEqual(steps.map(({ printed }) => withoutIds(printed)))
  })

  test('finds the address, what the demo holds and the turns with their verdicts printed at start', () => {
    const printed = service.output()
    expect(printed).toContain(
      'Harrow Lane Commons (America/Chicago): 4 rooms, 9 layouts, 818 pieces, 6 devices, 7 shifts',
    )
    for (const line of readme.matchAll(/^ {2}Sat .*\d{2}:\d{2} {2}(.*)$/gm))
      expect(printed).toContain(line[1])
    expect(printed).toMatch(/Refused while loading: Family lunch\. .* short/)
  })
})

describe('the README', () => {
  test('lists every reason, in order of precedence, with whether it may be overridden, and no other', () => {
    const table = /^\| `([a-z-]+)` +\| .* \| (yes|no|unless firm|unless qualified or firm) +\|$/gm
    const rows = [...readme.matchAll(table)].map(([, code, may]) => [code, may])
    expect(rows).toEqual(reasonCodes.map((code) => [code, overridableInWords(code)]))
  })
})
