/** Layouts to ask advice on; a test names only what matters to it. */
import type { AdviceInput, AdvicePlacement } from '../../../../src/scheduler/standards/advice/advice-input.ts'
import type { AdviceItem } from '../../../../src/scheduler/standards/advice/advice-item.ts'
import {
  metresFromFeet,
  millimetresFromInches,
  squareMetresFromSquareFeet,
} from '../../../../src/scheduler/standards/occupancy/imperial-units.ts'

/** A hall of 60 by 40 ft with 300 chairs in rows and two pairs of doors of 68 in at the ends of a long wall. */
export const aLayout = (changes: Partial<AdviceInput> = {}): AdviceInput => ({
  locale: 'us',
  units: 'us',
  layoutKind: 'worship',
  seats: 300,
  headcount: null,
  netAreaSquareMetres: squareMetresFromSquareFeet(2400),
  occupantLimitPosted: 340,
  exits: [
    {
      name: 'the street doors',
      clearWidthMillimetres: millimetresFromInches(68),
      opensOutward: true,
      panicHardware: true,
      xMetres: 0,
      yMetres: 0,
    },
    {
      name: 'the yard doors',
      clearWidthMillimetres: millimetresFromInches(68),
      opensOutward: true,
      panicHardware: true,
      xMetres: metresFromFeet(60),
      yMetres: 0,
    },
  ],
  roomDiagonalMetres: metresFromFeet(Math.hypot(60, 40)),
  sprinklersAndVoiceAlarm: false,
  placements: null,
  amplified: true,
  tablesCount: 0,
  chairSeats: 0,
  stageAreaSquareMetres: 0,
  ...changes,
})

export interface RowPlan {
  readonly rows: number
  /** Seats in each block of a row; between two blocks is an aisle. */
  readonly blocks: readonly number[]
  readonly clearMillimetres: number
  readonly aisleMillimetres: number
  readonly rotationDegrees?: number
}

const CHAIR_WIDTH_METRES = 0.52
const CHAIR_DEPTH_METRES = 0.55

/** Chairs in straight rows whose first one begins at (0, 0), the whole turned about that corner. */
export function chairsInRows(plan: RowPlan): AdvicePlacement[] {
  const radians = ((plan.rotationDegrees ?? 0) * Math.PI) / 180
  const chairs: AdvicePlacement[] = []
  for (let row = 0; row < plan.rows; row += 1) {
    const across = CHAIR_DEPTH_METRES / 2 + row * (CHAIR_DEPTH_METRES + plan.clearMillimetres / 1000)
    let along = 0
    for (const seats of plan.blocks) {
      for (let seat = 0; seat < seats; seat += 1) {
        const middle = along + CHAIR_WIDTH_METRES / 2
        chairs.push({
          kind: 'stacking-chair',
          xMetres: middle * Math.cos(radians) - across * Math.sin(radians),
          yMetres: middle * Math.sin(radians) + across * Math.cos(radians),
          rotationDegrees: plan.rotationDegrees ?? 0,
          widthMetres: CHAIR_WIDTH_METRES,
          depthMetres: CHAIR_DEPTH_METRES,
          seatsPerPiece: 1,
        })
        along += CHAIR_WIDTH_METRES
      }
      along += plan.aisleMillimetres / 1000
    }
  }
  return chairs
}

/** How long such a row is, aisles included. */
export const rowLengthMetres = ({ blocks, aisleMillimetres }: RowPlan): number =>
  blocks.reduce((sum, seats) => sum + seats, 0) * CHAIR_WIDTH_METRES +
  ((blocks.length - 1) * aisleMillimetres) / 1000

/** Round tables of 60 in, with eight chairs each, whose edges are so far apart. */
export function roundTables(count: number, apartMillimetres: number, chairs = true): AdvicePlacement[] {
  const diameter = millimetresFromInches(60) / 1000
  return Array.from({ length: count }, (_, index) => index * (diameter + apartMillimetres / 1000)).flatMap(
    (xMetres) => [
      {
        kind: 'round-table' as const,
        xMetres,
        yMetres: 0,
        rotationDegrees: 0,
        widthMetres: diameter,
        depthMetres: diameter,
        seatsPerPiece: 8,
      },
      ...(chairs ? chairsAround(xMetres, diameter) : []),
    ],
  )
}

function chairsAround(xMetres: number, diameter: number): AdvicePlacement[] {
  return Array.from({ length: 8 }, (_, index) => {
    const angle = (index * Math.PI) / 4
    const reach = diameter / 2 + CHAIR_DEPTH_METRES / 2
    return {
      kind: 'stacking-chair' as const,
      xMetres: xMetres + reach * Math.cos(angle),
      yMetres: reach * Math.sin(angle),
      rotationDegrees: (index * 45 + 90) % 360,
      widthMetres: CHAIR_WIDTH_METRES,
      depthMetres: CHAIR_DEPTH_METRES,
      seatsPerPiece: 1,
    }
  })
}

/** The item with that code. */
export function itemOf(items: readonly AdviceItem[], code: string): AdviceItem | undefined {
  return items.find((item) => item.code === code)
}
