/**
 * `npm run imports`: who may import whom (rules in .dependency-cruiser.cjs), checked on the sources. A cruise that
 * saw nothing, or fewer sources than there are, is a failure and not a success.
 */
import { readdirSync } from 'node:fs'
import { createRequire } from 'node:module'
import path from 'node:path'
import { cruise } from 'dependency-cruiser'
import { root } from './prepare.mjs'

process.chdir(root)
const { forbidden, options } = createRequire(import.meta.url)(path.join(root, '.dependency-cruiser.cjs'))
const folders = ['src', 'seed']

const { output } = await cruise(folders, {
  ...options,
  ruleSet: { forbidden },
  validate: true,
  outputType: 'json',
})
const result = typeof output === 'string' ? JSON.parse(output) : output
const seen = new Set(result.modules.map((module) => module.source))
const sources = folders.flatMap((folder) =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => path.posix.join(folder, name.split(path.sep).join('/'))),
)
const unseen = sources.filter((source) => !seen.has(source))

for (const { rule, from, to } of result.summary.violations)
  console.error(`${rule.name}: ${from} imports ${to}`)
for (const source of unseen) console.error(`not looked at: ${source}`)
const dependencies = result.modules.reduce((sum, module) => sum + module.dependencies.length, 0)
const failed =
  result.summary.violations.length > 0 || unseen.length > 0 || sources.length === 0 || dependencies === 0
console.log(
  `import rules: ${sources.length - unseen.length} of ${sources.length} sources, ${dependencies} imports looked at`,
)
process.exit(failed ? 1 : 0)
