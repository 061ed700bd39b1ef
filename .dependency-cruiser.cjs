/** Who may import whom. Types count too: a pure core that knows the framework's types is not pure. */
module.exports = {
  forbidden: [
    {
      name: 'domain-is-only-words',
      severity: 'error',
      comment: 'src/domain holds types and schemas: it imports itself and zod',
      from: { path: '^src/domain/' },
      to: { pathNot: ['^src/domain/', '^node_modules/zod/'] },
    },
    {
      name: 'scheduler-is-pure',
      severity: 'error',
      comment: 'src/scheduler imports itself, the domain and luxon: no I/O, no framework, no database',
      from: { path: '^src/scheduler/' },
      to: { pathNot: ['^src/(scheduler|domain)/', '^node_modules/(@types/)?luxon/'] },
    },
    {
      name: 'solver-knows-no-halls',
      severity: 'error',
      comment: 'src/scheduler/turn solves instances of whole numbers; it knows nothing of the domain',
      from: { path: '^src/scheduler/turn/' },
      to: { pathNot: ['^src/scheduler/turn/'] },
    },
    {
      name: 'store-knows-no-api',
      severity: 'error',
      from: { path: '^src/(store|worker)/' },
      to: { path: ['^src/api/', '^node_modules/(@fastify|fastify)'] },
    },
    {
      name: 'database-only-in-store',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/store/' },
      to: { path: ['^node_modules/(drizzle-orm|better-sqlite3|pg)'] },
    },
    { name: 'no-circles', severity: 'error', from: {}, to: { circular: true } },
    { name: 'nothing-missing', severity: 'error', from: {}, to: { couldNotResolve: true } },
  ],
  options: {
    parser: 'swc',
    tsPreCompilationDeps: true,
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '^(dist|migrations)/' },
    enhancedResolveOptions: {
      extensions: ['.ts', '.js', '.mjs', '.json'],
      conditionNames: ['import', 'node', 'default', 'types'],
    },
  },
}
