/** Where drizzle-kit finds the tables and writes migrations. `casing` is said again where the store opens. */
import { defineConfig } from 'drizzle-kit'

export default defineConfig({
  dialect: 'sqlite',
  schema: './src/store/schema.sqlite.ts',
  out: './migrations/sqlite',
  casing: 'snake_case',
})
