/** A route that takes nothing in its query says so: what is misspelt, or not known here, is never passed over. */
import { z } from 'zod'
import type { Api } from './zod-requests.ts'

const NoQuery = z.strictObject({})

/** Counts for every route that is added afterwards and has no query of its own. */
export function strictQueries(api: Api): void {
  api.addHook('onRoute', (route) => {
    if (route.schema?.querystring === undefined) route.schema = { ...route.schema, querystring: NoQuery }
  })
}
