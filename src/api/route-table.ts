/** Which methods an address takes, so that a wrong method is told apart from a wrong address. */

import { Problem } from './problems.ts'
import type { Api } from './zod-requests.ts'

export class RouteTable {
  readonly #routes: { readonly method: string; readonly pattern: RegExp }[] = []

  /** Learns every route that is added afterwards. */
  constructor(api: Api) {
    api.addHook('onRoute', ({ method, url }) => {
      const pattern = new RegExp(
        `^${url.replace(/[.*+?^${}()|[\]\\]/g, '\\$&').replace(/:[A-Za-z]+/g, '[^/]+')}$`,
      )
      for (const one of [method].flat()) this.#routes.push({ method: one, pattern })
    })
  }

  problemFor(method: string, url: string): Problem {
    const path = url.split('?', 1)[0] ?? url
    const methods = this.#routes.filter(({ pattern }) => pattern.test(path)).map((route) => route.method)
    if (methods.length === 0)
      return new Problem('unknown-route', 'No route has this path; /openapi.json lists them.')
    const allow = [...new Set(methods)].sort().join(', ')
    return new Problem('method-not-allowed', `${method} is not taken here; ${allow} are.`, {}, { allow })
  }
}
