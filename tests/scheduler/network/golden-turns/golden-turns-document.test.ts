import { expect, test } from 'vitest'
import { goldenTurns, goldenTurnsDocument } from './golden-turns-document.ts'

test('the page with the worked sheets shows the sheets that the tests use', async () => {
  await expect(goldenTurnsDocument(goldenTurns)).toMatchFileSnapshot('../../../../docs/golden-turns.md')
})
