/** When trained crowd managers are asked for, and how many, by the code adopted. */
import type { Sourced } from './sourced.ts'

export type CrowdManagerRuleSet = 'ifc-2018' | 'ifc-2021' | 'new-york' | 'nfpa-101'

export interface CrowdManagerRule extends Sourced {
  /** As a sentence names it. */
  readonly code: string
  /** Nothing is asked up to this many people. */
  readonly noneUpToPeople: number
  readonly managersLeast: number
  /** One manager for each so many people or part of it. */
  readonly peopleEach: number
  /** A room used only for worship is free of the rule up to this load; null: it is not exempt. */
  readonly worshipExemptUpToPeople: number | null
}

export const CROWD_MANAGER_RULES: Readonly<Record<CrowdManagerRuleSet, CrowdManagerRule>> = {
  'ifc-2018': {
    code: 'the International Fire Code',
    noneUpToPeople: 1000,
    managersLeast: 2,
    peopleEach: 250,
    worshipExemptUpToPeople: 1000,
    source:
      'IFC 2018 403.12.3 (number and worship exemption quoted by an adopted fire code; threshold from memory)',
    status: 'from memory',
  },
  'ifc-2021': {
    code: 'the International Fire Code',
    noneUpToPeople: 1000,
    managersLeast: 2,
    peopleEach: 250,
    worshipExemptUpToPeople: 1000,
    source:
      'IFC 2021 403.11.3 (number and worship exemption quoted by an adopted fire code; threshold from memory, an adopted text exempts outdoor events under 1,000, so it may be lower)',
    status: 'from memory',
  },
  'new-york': {
    code: 'the Fire Code of New York State',
    noneUpToPeople: 500,
    managersLeast: 2,
    peopleEach: 250,
    worshipExemptUpToPeople: 1000,
    source: 'Fire Code of New York State 403.11.3 (threshold read; number as in the IFC it adopts)',
    status: 'second-hand',
  },
  'nfpa-101': {
    code: 'NFPA 101',
    noneUpToPeople: 0,
    managersLeast: 1,
    peopleEach: 250,
    // 2,000 in an older state text: the lower figure, of NFPA 1 (2021), is the default.
    worshipExemptUpToPeople: 500,
    source: 'NFPA 101 12.7.6 and NFPA 1 (2021), quoted by a fire marshal and a university',
    status: 'second-hand',
  },
}
