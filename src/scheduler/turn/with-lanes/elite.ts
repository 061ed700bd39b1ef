/** The best plans of a search, best first; no two are equal in all that counts. */
import { type FoundPlan, isBetter } from './found-plan.ts'

const ELITE_MOST = 4

export class Elite {
  private readonly plans: FoundPlan[] = []
  private firstOfBest: FoundPlan | null = null

  /** Of equals the one found first: what comes first in the list is then done first. */
  best(): FoundPlan | null {
    return this.firstOfBest
  }

  /** Among those that others are made from the newer of equals stays: the search drifts instead of standing still. */
  keep(plan: FoundPlan): void {
    const { plans } = this
    if (isBetter(plan, this.firstOfBest)) this.firstOfBest = plan
    let at = 0
    while (at < plans.length && isBetter(plans[at]!, plan)) at += 1
    const equal = plans[at]
    if (equal && !isBetter(plan, equal)) plans[at] = plan
    else plans.splice(at, 0, plan)
    if (plans.length > ELITE_MOST) plans.pop()
  }

  /** @param share 0 or more and below 1, of the way from the best to the worst @returns null when there is none */
  at(share: number): FoundPlan | null {
    return this.plans[Math.floor(share * this.plans.length)] ?? null
  }
}
