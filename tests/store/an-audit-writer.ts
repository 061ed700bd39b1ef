/** A process of its own: founds a site, says so, waits for the word, and then changes the name of the site again and again. */
import { createInterface } from 'node:readline'
import { z } from 'zod'
import { SiteId } from '../../src/domain/ids.ts'
import { openSqliteStore } from '../../src/store/open-sqlite-store.ts'
import { renaming } from './a-renaming.ts'

const [file, siteId, commits] = z
  .tuple([z.string(), SiteId, z.coerce.number().int()])
  .parse(process.argv.slice(2))
const store = await openSqliteStore({ file })
await store.commit(renaming(siteId, 'Name 0', null))
const lines = createInterface({ input: process.stdin })
const word = new Promise((resolve) => lines.once('line', resolve))
console.log('ready')
await word
lines.close()
for (let version = 1; version <= commits; version++)
  await store.commit(renaming(siteId, `Name ${version}`, version))
store.close()
