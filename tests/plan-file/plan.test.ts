/** The command, and what its page says of it. */
import { spawnSync } from 'node:child_process'
import { readFileSync, writeFileSync } from 'node:fs'
import path from 'node:path'
import { describe, expect, test } from 'vitest'
import { instanceSchema } from '../../src/plan-file/instance-document.ts'
import { root } from '../a-started-service.ts'
import { aFolder } from '../store/a-database-file.ts'
import { aDocument } from './a-document.ts'

const page = readFileSync(path.join(root, 'docs', 'instance.md'), 'utf8')
const [, written = ''] = /```json\n([\s\S]*?)```/.exec(page) ?? []
const [, printed = ''] = /```text\n([\s\S]*?)```/.exec(page) ?? []

function planned(text: string, ...args: readonly string[]) {
  const file = path.join(aFolder(), 'problem.json')
  writeFileSync(file, text)
  return run(file, ...args)
}

function run(...args: readonly string[]) {
  const program = path.join(root, 'src', 'plan.ts')
  const { status, stdout, stderr } = spawnSync(process.execPath, ['--import', 'tsx', program, ...args], {
    cwd: root,
    encoding: 'utf8',
  })
  return { status, stdout, stderr }
}

const withoutTime = (text: string) => text.replace(/"milliseconds": \d+/, '"milliseconds": …')

describe('npm run plan', () => {
  test('prints for the example of its page what the page says, every time', () => {
    const once = planned(written)
    expect(once.status).toBe(0)
    expect(withoutTime(once.stdout)).toBe(withoutTime(printed))
    expect(withoutTime(planned(written, '--work', '5000', '--seed', '1').stdout)).toBe(withoutTime(printed))
  })

  test('tries no more schedules than it is told to', () => {
    expect(JSON.parse(planned(written, '--work', '7').stdout)).toMatchObject({ workDone: 7 })
  })

  test('ends with 1 where no plan was found', () => {
    const { status, stdout } = planned(JSON.stringify(aDocument({ lanes: [] })))
    expect(status).toBe(1)
    expect(JSON.parse(stdout)).toMatchObject({ proof: 'impossible', activities: null })
  })

  test('ends with 2 and says why where a file cannot be planned', () => {
    expect(planned('{}')).toMatchObject({
      status: 2,
      stdout: '',
      stderr: expect.stringContaining('It is no turnwright-instance 1:'),
    })
    expect(run('nowhere.json')).toMatchObject({
      status: 2,
      stdout: '',
      stderr: expect.stringMatching(/^nowhere\.json cannot be read: ENOENT/),
    })
  })
})

test('the schema that is handed out is that of what is read: `npm run instance-schema` writes it', () => {
  const schema: unknown = JSON.parse(readFileSync(path.join(root, 'docs', 'instance.schema.json'), 'utf8'))
  expect(schema).toEqual(JSON.parse(JSON.stringify(instanceSchema())))
})
