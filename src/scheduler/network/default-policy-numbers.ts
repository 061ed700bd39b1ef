/** How a new site is planned until it says otherwise. Common practice without a source, all of it to be changed. */
import type { Policy } from '../../domain/policy.ts'

const minutes = (count: number): number => count * 60

const boundary = (doorsMinutes: number, clearMinutes: number) => ({
  doorsBeforeStartSeconds: minutes(doorsMinutes),
  clearAfterEndSeconds: minutes(clearMinutes),
})

export const DEFAULT_POLICY_NUMBERS: Omit<Policy, 'id' | 'siteId'> = {
  boundaries: {
    worship: boundary(30, 20),
    overflow: boundary(30, 20),
    banquet: boundary(30, 45),
    games: boundary(10, 15),
    meeting: boundary(10, 10),
    other: boundary(10, 10),
  },
  paceFactor: 1.5,
  allowanceShare: 0.15,
  effectiveHands: [
    { hands: 1, effective: 1 },
    { hands: 2, effective: 2 },
    { hands: 4, effective: 3.7 },
    { hands: 6, effective: 5.2 },
    { hands: 8, effective: 6.4 },
    { hands: 12, effective: 8 },
  ],
  briefingSeconds: minutes(5),
  slackWantedSeconds: minutes(5),
  walkBetweenRoomsSeconds: minutes(2),
  zoneSquareMetres: 100,
  cleaning: {
    worship: ['dust-mop'],
    overflow: ['dust-mop'],
    banquet: ['sweep', 'spot-mop'],
    games: ['dust-mop'],
    meeting: ['dust-mop'],
    other: ['dust-mop'],
  },
  minorMassLimitKilograms: 10,
  adultOnlySkills: ['lift-operator', 'rigging', 'electrics', 'ladder-work'],
  binsPerHundredGuests: 4,
  planningHands: 0,
  paidPersonSecondsMost: null,
  justInTimeFromGapSeconds: null,
  returnHomeAfterSeconds: null,
  replanTurnsMost: 24,
  workMost: 60,
}

export const DEFAULT_POLICY_SOURCE = 'Common practice, no source: a judgement of the program, to be replaced'
