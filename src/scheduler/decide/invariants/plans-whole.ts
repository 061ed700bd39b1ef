/** Each plan is sound by itself: see plan-faults.ts. */
import { planFaults } from '../plan/plan-faults.ts'
import type { WholeSite } from './whole-site.ts'

export const plansWhole = ({ snapshot }: WholeSite): string[] => snapshot.turns.flatMap(planFaults)
