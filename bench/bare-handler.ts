/** What the service is measured against: validate a small body, insert one row, answer. Same database settings. */
import Database from 'better-sqlite3'
import fastify from 'fastify'

const database = new Database(process.env.DATABASE_FILE ?? ':memory:')
database.pragma('journal_mode = WAL')
database.pragma('synchronous = FULL')
database.exec(
  'create table if not exists note (id integer primary key, title text not null, headcount integer not null)',
)
const insert = database.prepare('insert into note (title, headcount) values (?, ?)')

const app = fastify()
app.get('/ready', async () => ({ ready: true }))
app.post<{ Body: { title: string; headcount: number } }>(
  '/notes',
  {
    schema: {
      body: {
        type: 'object',
        required: ['title', 'headcount'],
        additionalProperties: false,
        properties: { title: { type: 'string', maxLength: 120 }, headcount: { type: 'integer', minimum: 1 } },
      },
    },
  },
  async (request, reply) => {
    const { lastInsertRowid } = insert.run(request.body.title, request.body.headcount)
    return reply.code(201).send({ id: Number(lastInsertRowid) })
  },
)
process.on('SIGTERM', () => process.exit(0))
await app.listen({ host: '127.0.0.1', port: Number(process.env.PORT) })
