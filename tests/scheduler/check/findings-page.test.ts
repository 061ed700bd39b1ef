import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { findingsPage } from './findings-page.ts'

test('docs/check.md lists every finding there is, and no other', () => {
  expect(readFileSync(new URL('../../../docs/check.md', import.meta.url), 'utf8')).toBe(findingsPage())
})
