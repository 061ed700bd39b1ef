/** `npm run instance-schema`: writes docs/instance.schema.json from what `npm run plan` reads. */
import { spawnSync } from 'node:child_process'
import { writeFileSync } from 'node:fs'
import path from 'node:path'
import { buildProgram, root } from './prepare.mjs'

buildProgram()
const { instanceSchema } = await import('../dist/src/plan-file/instance-document.js')
const file = path.join(root, 'docs', 'instance.schema.json')
writeFileSync(file, JSON.stringify(instanceSchema(), null, 2))
const biome = path.join(root, 'node_modules', '@biomejs', 'biome', 'bin', 'biome')
const formatted = spawnSync(process.execPath, [biome, 'format', '--write', file], { stdio: 'inherit' })
process.exit(formatted.status ?? 1)
