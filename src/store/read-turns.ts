/** Turns with their plans. Plans are large and seldom change, so parsed ones are kept by their hash. */
import { eq, sql } from 'drizzle-orm'
import type { TurnId } from '../domain/ids.ts'
import { Plan } from '../domain/plan.ts'
import { Turn } from '../domain/turn.ts'
import { deepFreeze } from './deep-freeze.ts'
import type { Engine } from './engine.ts'

/** Some tens of kilobytes each; the one not asked for longest goes first. */
const PLANS_KEPT_MOST = 400

const TurnAlone = Turn.omit({ plan: true })

/** A row of `turnColumns`. */
export interface TurnRow {
  readonly turn: object & { readonly id: string }
  readonly planHash: string | null
}

/** What to select, from turn left joined with plan. */
export const turnColumns = ({ tables }: Engine) => ({ turn: tables.turn, planHash: tables.plan.hash })

export interface TurnReader {
  /** Completes rows with their plans; the plans are shared and frozen. */
  withPlans(rows: readonly TurnRow[]): Promise<Turn[]>
  byId(turnId: TurnId): Promise<Turn | null>
}

export function turnReader(engine: Engine): TurnReader {
  const { db, tables } = engine
  const kept = new Map<string, Plan>()
  const rowById = db
    .select(turnColumns(engine))
    .from(tables.turn)
    .leftJoin(tables.plan, eq(tables.plan.turnId, tables.turn.id))
    .where(eq(tables.turn.id, sql.placeholder('id')))
    .prepare()
  const rowWithDocumentById = db
    .select({ ...turnColumns(engine), document: tables.plan.document })
    .from(tables.turn)
    .leftJoin(tables.plan, eq(tables.plan.turnId, tables.turn.id))
    .where(eq(tables.turn.id, sql.placeholder('id')))
    .prepare()

  function keep(hash: string, plan: Plan): Plan {
    kept.delete(hash)
    kept.set(hash, plan)
    const oldest = kept.keys().next()
    if (kept.size > PLANS_KEPT_MOST && !oldest.done) kept.delete(oldest.value)
    return plan
  }

  async function withPlan({ turn, planHash }: TurnRow): Promise<Turn | null> {
    if (planHash === null) return turnWith(turn, null)
    const plan = kept.get(planHash)
    if (plan) return turnWith(turn, keep(planHash, plan))
    // Read anew as a whole: the plan may have been replaced together with its turn.
    const [row] = await rowWithDocumentById.execute({ id: turn.id })
    if (!row || row.planHash === null) return row ? turnWith(row.turn, null) : null
    return turnWith(row.turn, keep(row.planHash, deepFreeze(Plan.parse(row.document))))
  }

  return {
    async withPlans(rows) {
      const turns: Turn[] = []
      for (const row of rows) {
        const turn = await withPlan(row)
        if (turn) turns.push(turn)
      }
      return turns
    },
    async byId(turnId) {
      const [row] = await rowById.execute({ id: turnId })
      return row ? withPlan(row) : null
    },
  }
}

/** A turn straight from its row and the document of its plan, frozen. */
export const turnOfRow = (row: object, document: unknown): Turn =>
  deepFreeze(turnWith(row, document === null ? null : Plan.parse(document)))

/** The plan has been through its schema already. */
const turnWith = (row: object, plan: Plan | null): Turn => ({ ...TurnAlone.parse(row), plan })
