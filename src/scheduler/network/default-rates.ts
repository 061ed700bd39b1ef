/** The rates a site starts with. Setting and striking times have no published source: learn them as soon as possible. */
import type { FurnishingKind } from '../../domain/furnishing.ts'
import type { PieceRate, Rates } from './rates.ts'

const SQUARE_METRES_PER_1000_SQUARE_FEET = 92.903_04

/** Cleaning times are published in minutes per 1,000 square feet. */
const minutesPer1000SquareFeet = (minutes: number): number =>
  (minutes * 60) / SQUARE_METRES_PER_1000_SQUARE_FEET

const rate = (setPersonSeconds: number, strikePersonSeconds: number): PieceRate => ({
  setPersonSeconds,
  strikePersonSeconds,
})

/** Common practice, no source, the middle of the range in brackets, unless the line says otherwise. */
const fromTrolley: Record<FurnishingKind, PieceRate> = {
  'stacking-chair': rate(9, 7.5), // off a cart beside the row: set 6–12, strike 5–10
  'folding-chair': rate(11.5, 10), // set 8–15, strike 8–12
  'round-table': rate(90, 67.5), // 60 in: set 60–120, strike 45–90; a 72-in round takes 90–160 and 75–130
  'long-table': rate(90, 75), // 8 ft, the slower of the usual two: set 60–120, strike 50–100
  'stage-deck': rate(270, 195), // 4 × 8 ft with legs: set 180–360 (also from a staging firm's published crew rate), strike 120–270
  'post-pair': rate(240, 180), // goal or badminton posts: set 180–300, strike 120–240
  'games-table': rate(90, 75), // no range known: taken like an 8-ft table
  'table-cloth': rate(45, 15), // set 30–60, strike 10–20
  other: rate(60, 60), // a guess without a range, to be replaced
}

export const DEFAULT_RATES: Rates = {
  fromTrolley,
  byHand: {
    ...fromTrolley,
    'stacking-chair': rate(15.5, 15.5), // carried singly 6 m: 13–18 either way; BasicMOST from memory gives 14.8
  },
  piecesPerCarry: {
    // Common practice, no source: one in each hand for chairs, an armful of cloths, else one piece at a time.
    'stacking-chair': 2,
    'folding-chair': 2,
    'round-table': 1,
    'long-table': 1,
    'stage-deck': 1,
    'post-pair': 1,
    'games-table': 1,
    'table-cloth': 10,
    other: 1,
  },
  cleaningPersonSecondsPerSquareMetre: {
    'dust-mop': minutesPer1000SquareFeet(6.5), // 24-in mop, 5–8: common practice, no source (48 in by ISSA 540: 2.4)
    sweep: minutesPer1000SquareFeet(10), // 24-in push broom, 8–12: common practice, no source
    vacuum: minutesPer1000SquareFeet(22.8), // upright 12 in: ISSA cleaning times, 1994 edition, quoted by issa.com 2018
    'spot-mop': minutesPer1000SquareFeet(4.5), // 3–6: common practice, no source
    'wet-mop': minutesPer1000SquareFeet(14.4), // 16-oz mop and bucket: ISSA 540, from an answer that applies it
  },
  dryingSeconds: {
    // The middle of the ranges in a consumer guide to floor drying (flooringclarity.com).
    'sealed-wood': 1350, // 15–30 min
    vinyl: 1200, // 10–30 min
    tile: 1800, // 20–40 min
    concrete: 2700, // 30–60 min
  },
  walkingMetresPerSecond: 1.6, // MTM-1, 15.0 TMU a pace of 0.864 m, from memory
  carryingMetresPerSecond: 1.41, // MTM-1, 17.0 TMU a pace with a load over 23 kg, from memory
  loadedTrolleyMetresPerSecond: 10 / 15, // 10–20 s per 10 m: common practice, no source
  trolleyHandlingSeconds: 60, // common practice, no source
  shortCarryMetres: 6, // the carry that the handling figures above were taken with
  routeUnknownMetres: 40, // common practice, no source: a store at the other end of the building
  walkthroughModes: [
    { hands: 1, seconds: 300 }, // common practice, no source
    { hands: 2, seconds: 180 },
  ],
  signOffModes: [
    { hands: 1, seconds: 600 }, // common practice, no source
    { hands: 2, seconds: 360 },
  ],
}
