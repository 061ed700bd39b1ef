import type { Kit } from './kit.sqlite.ts'

/** What nearly every other table points to. */
export const siteTable = (k: Kit) =>
  k.table(
    'site',
    {
      id: k.str().primaryKey(),
      name: k.str().notNull(),
      zone: k.str().notNull(),
      planningVersion: k.int().notNull(),
      setupVersion: k.int().notNull(),
      units: k.str().notNull().default('metric'),
      codeTables: k.str().notNull().default('us'),
    },
    (t) => [k.index('site_name').on(t.name, t.id)],
  )
