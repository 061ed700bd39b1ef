/**
 * The rows and aisles that placed chairs form. Chairs at tables are left out; chairs that face the same way and stand
 * in line are a row. What cannot be made out is left unsaid rather than guessed: where the walls are not known, nobody
 * can tell whether a row ends at an aisle.
 */
import type { FloorPoint } from '../../../domain/floor.ts'
import type { AdvicePlacement } from './advice-input.ts'
import { metresToWall } from './metres-to-wall.ts'
import { isTable, metresFromTable } from './table-shape.ts'

/** Whether people can leave a row at its end. */
export type RowEnd = 'aisle' | 'no-aisle' | 'unknown'

export interface SurveyedRow {
  readonly seats: number
  readonly leftEnd: RowEnd
  readonly rightEnd: RowEnd
}

/** The way between two rows, one behind the other. */
export interface SurveyedWay {
  readonly clearMillimetres: number
  readonly rows: readonly [SurveyedRow, SurveyedRow]
}

export interface SurveyedAisle {
  readonly clearMillimetres: number
  readonly seatsOnBothSides: boolean
  /** Seats that use it for certain, and at most. */
  readonly seatsServedLeast: number
  readonly seatsServedMost: number
}

export interface RowSurvey {
  /** Chairs that are not at tables. */
  readonly chairs: number
  readonly rows: readonly SurveyedRow[]
  readonly ways: readonly SurveyedWay[]
  readonly aisles: readonly SurveyedAisle[]
}

export const isChair = ({ kind }: AdvicePlacement): boolean =>
  kind === 'stacking-chair' || kind === 'folding-chair'

/** A chair this near the edge of a table belongs to it. */
const AT_TABLE_METRES = 0.75
/** Chairs turned by no more than this from one another face the same way. */
const HEADING_STEP_DEGREES = 5
/** A gap between two chairs of one row that nobody walks through. */
const JOINED_GAP_METRES = 0.3
/** The least width any aisle may have, 30 in: beside a wall this much is an aisle. */
const LEAST_AISLE_METRES = 0.762
/** Rows farther apart have a cross-aisle or other floor between them. */
const FARTHEST_WAY_METRES = 1.5
/** Too many chairs in rows of one or two: they stand in a curve, or not in rows at all. */
const LONE_CHAIRS_MOST = 0.2

/**
 * @param floorCorners  corners of the floor in order; fewer than three: walls are not known
 * @returns the survey; null where there are chairs, but no rows can be made out
 */
export function rowSurvey(
  placements: readonly AdvicePlacement[],
  floorCorners: readonly FloorPoint[],
): RowSurvey | null {
  const tables = placements.filter(isTable)
  const chairs = placements.filter(
    (piece) => isChair(piece) && !tables.some((table) => metresFromTable(table, piece) <= AT_TABLE_METRES),
  )
  const lines = linesByHeading(chairs)
  const joined = lines.flat().flatMap((line) => runsOf(line, []))
  const lone = joined.filter((run) => run.length < 3).reduce((sum, run) => sum + run.length, 0)
  if (lone > LONE_CHAIRS_MOST * chairs.length) return null
  // Blocks that face different ways may stand beside one another: then walls alone do not say where aisles are.
  const walls = lines.length === 1 && floorCorners.length >= 3 ? floorCorners : []
  const surveys = lines.map((blockLines) => surveyOfBlock(blockLines, walls))
  return {
    chairs: chairs.length,
    rows: surveys.flatMap((survey) => survey.rows),
    ways: surveys.flatMap((survey) => survey.ways),
    aisles: surveys.flatMap((survey) => survey.aisles),
  }
}

/**
 * How many rows chairs stand in, whatever lies between them: 15 in line with two aisles across are one. Plans are drawn
 * with chairs turned as nobody looks at it, so of the two ways to read it the one counts in which neighbours are nearer:
 * people sit closer beside each other than behind each other.
 */
export function chairLines(chairs: readonly AdvicePlacement[]): number {
  const asDrawn = linesByHeading(chairs).flat()
  const turned = chairs.map((chair) => ({ ...chair, rotationDegrees: chair.rotationDegrees + 90 }))
  const otherWay = linesByHeading(turned).flat()
  return (metresToNeighbour(otherWay) < metresToNeighbour(asDrawn) ? otherWay : asDrawn).length
}

/** On average, along the lines; endless where every line is one chair. */
function metresToNeighbour(lines: readonly Line[]): number {
  const gaps = lines.reduce((sum, line) => sum + line.length - 1, 0)
  const metres = lines.reduce((sum, line) => sum + line.at(-1)!.along - line[0]!.along, 0)
  return gaps === 0 ? Number.POSITIVE_INFINITY : metres / gaps
}

/** The lines of each block that faces one way, by heading. */
function linesByHeading(chairs: readonly AdvicePlacement[]): Line[][] {
  const blocks = new Map<number, ChairInLine[]>()
  for (const chair of chairs) {
    const heading = headingOf(chair)
    const block = blocks.get(heading)
    if (block) block.push(onBlock(chair, heading))
    else blocks.set(heading, [onBlock(chair, heading)])
  }
  return [...blocks].sort(([a], [b]) => a - b).map(([, block]) => linesOf(block))
}

/** A chair in the axes of its block: along the row and across it. */
interface ChairInLine {
  readonly heading: number
  readonly along: number
  readonly across: number
  readonly halfWidth: number
  readonly halfDepth: number
  readonly seats: number
}

type Line = readonly ChairInLine[]

function headingOf({ rotationDegrees }: AdvicePlacement): number {
  const turned = ((rotationDegrees % 360) + 360) % 360
  return (Math.round(turned / HEADING_STEP_DEGREES) * HEADING_STEP_DEGREES) % 360
}

function onBlock(chair: AdvicePlacement, heading: number): ChairInLine {
  const [cosine, sine] = axisOf(heading)
  return {
    heading,
    along: chair.xMetres * cosine + chair.yMetres * sine,
    across: -chair.xMetres * sine + chair.yMetres * cosine,
    halfWidth: chair.widthMetres / 2,
    halfDepth: chair.depthMetres / 2,
    seats: chair.seatsPerPiece ?? 1,
  }
}

function axisOf(heading: number): readonly [number, number] {
  const radians = (heading * Math.PI) / 180
  return [Math.cos(radians), Math.sin(radians)]
}

/** Chairs whose middles lie within a third of a chair of their neighbours across the row are one line. */
function linesOf(chairs: readonly ChairInLine[]): Line[] {
  const lines: ChairInLine[][] = []
  let lastAcross = Number.NEGATIVE_INFINITY
  for (const chair of [...chairs].sort((a, b) => a.across - b.across)) {
    const line = lines.at(-1)
    if (line && chair.across - lastAcross <= (chair.halfDepth * 2) / 3) line.push(chair)
    else lines.push([chair])
    lastAcross = chair.across
  }
  return lines.map((line) => line.sort((a, b) => a.along - b.along))
}

/** A place where a line is interrupted, and the same place in all lines that share it. */
interface Gap {
  readonly from: number
  readonly to: number
}

const leftOf = (chair: ChairInLine): number => chair.along - chair.halfWidth
const rightOf = (chair: ChairInLine): number => chair.along + chair.halfWidth

function gapsOf(line: Line): Gap[] {
  return line.slice(1).flatMap((chair, index) => {
    const gap = { from: rightOf(line[index]!), to: leftOf(chair) }
    return gap.to - gap.from > JOINED_GAP_METRES ? [gap] : []
  })
}

/**
 * Gaps that lie over one another in two lines or more are an aisle, as wide as what is free in all of them. A gap in one
 * line only is a place left free, for a wheelchair perhaps; where there is one line only, it is an aisle if wide enough.
 */
function aislesAcross(lines: readonly Line[]): Gap[] {
  const clusters: { gap: Gap; lines: number }[] = []
  for (const gap of lines.flatMap(gapsOf).sort((a, b) => a.from - b.from || a.to - b.to)) {
    const last = clusters.at(-1)
    const shared = last && { from: Math.max(last.gap.from, gap.from), to: Math.min(last.gap.to, gap.to) }
    if (last && shared && shared.to - shared.from > JOINED_GAP_METRES) {
      last.gap = shared
      last.lines += 1
    } else clusters.push({ gap, lines: 1 })
  }
  return clusters
    .filter((cluster) =>
      lines.length > 1 ? cluster.lines > 1 : cluster.gap.to - cluster.gap.from >= LEAST_AISLE_METRES,
    )
    .map((cluster) => cluster.gap)
}

/** The chairs of a line between its aisles; without aisles, between all its gaps. */
function runsOf(line: Line, aisles: readonly Gap[]): Line[] {
  const cuts = aisles.length > 0 ? aisles : gapsOf(line)
  const runs: ChairInLine[][] = []
  for (const [index, chair] of line.entries()) {
    const before = line[index - 1]
    const isCut =
      !before || cuts.some((cut) => cut.from >= rightOf(before) - 1e-6 && cut.to <= leftOf(chair) + 1e-6)
    if (isCut) runs.push([chair])
    else runs.at(-1)!.push(chair)
  }
  return runs
}

interface Run extends SurveyedRow {
  readonly from: number
  readonly to: number
  readonly front: number
  readonly back: number
  readonly metresLeft: number | null
  readonly metresRight: number | null
}

function surveyOfBlock(lines: readonly Line[], walls: readonly FloorPoint[]): Omit<RowSurvey, 'chairs'> {
  const aisles = aislesAcross(lines)
  const runsByLine = lines.map((line) =>
    (aisles.length > 0 ? runsOf(line, aisles) : [line]).map((run, index, runs) =>
      measuredRun(run, index > 0, index < runs.length - 1, walls),
    ),
  )
  const runs = runsByLine.flat()
  return {
    rows: runs,
    ways: runsByLine.flatMap((line, index) => waysBehind(line, runsByLine.slice(index + 1, index + 3))),
    aisles: [
      ...aisles.map((aisle) => innerAisle(aisle, runs)),
      ...sideAisle(
        runsByLine.map((line) => line[0]!),
        'leftEnd',
        'metresLeft',
      ),
      ...sideAisle(
        runsByLine.map((line) => line.at(-1)!),
        'rightEnd',
        'metresRight',
      ),
    ],
  }
}

function measuredRun(
  run: Line,
  hasAisleLeft: boolean,
  hasAisleRight: boolean,
  walls: readonly FloorPoint[],
): Run {
  const first = run[0]!
  const last = run.at(-1)!
  const metresLeft = hasAisleLeft ? null : metresBeyond(first, -1, walls)
  const metresRight = hasAisleRight ? null : metresBeyond(last, 1, walls)
  return {
    seats: run.reduce((sum, chair) => sum + chair.seats, 0),
    leftEnd: hasAisleLeft ? 'aisle' : endAtWall(metresLeft),
    rightEnd: hasAisleRight ? 'aisle' : endAtWall(metresRight),
    from: leftOf(first),
    to: rightOf(last),
    front: Math.min(...run.map((chair) => chair.across - chair.halfDepth)),
    back: Math.max(...run.map((chair) => chair.across + chair.halfDepth)),
    metresLeft,
    metresRight,
  }
}

function endAtWall(metres: number | null): RowEnd {
  if (metres === null) return 'unknown'
  if (metres + 1e-6 >= LEAST_AISLE_METRES) return 'aisle'
  return metres < JOINED_GAP_METRES ? 'no-aisle' : 'unknown'
}

/** From the side of the last chair of a row to the wall; null: no wall known. */
function metresBeyond(chair: ChairInLine, side: 1 | -1, walls: readonly FloorPoint[]): number | null {
  const [cosine, sine] = axisOf(chair.heading)
  const along = chair.along + side * chair.halfWidth
  const point = {
    xMetres: along * cosine - chair.across * sine,
    yMetres: along * sine + chair.across * cosine,
  }
  return metresToWall(point, { x: side * cosine, y: side * sine }, walls)
}

/** Ways from the runs of one line to those in the next line that stand behind them. */
function waysBehind(line: readonly Run[], nextLines: readonly (readonly Run[])[]): SurveyedWay[] {
  return line.flatMap((run) => {
    for (const nextLine of nextLines) {
      const behind = nextLine.filter((other) => standsBehind(run, other))
      if (behind.length > 0) {
        return behind
          .filter((other) => other.front - run.back <= FARTHEST_WAY_METRES)
          .map((other) => ({
            clearMillimetres: Math.max(0, (other.front - run.back) * 1000),
            rows: [run, other] as const,
          }))
      }
    }
    return []
  })
}

/** Whether at least half of the shorter row stands before the other. */
function standsBehind(run: Run, other: Run): boolean {
  const shared = Math.min(run.to, other.to) - Math.max(run.from, other.from)
  return shared >= Math.min(run.to - run.from, other.to - other.from) / 2
}

function innerAisle(aisle: Gap, runs: readonly Run[]): SurveyedAisle {
  const onLeft = runs.filter((run) => run.rightEnd === 'aisle' && isNear(aisle.from, run.to))
  const onRight = runs.filter((run) => run.leftEnd === 'aisle' && isNear(run.from, aisle.to))
  return aisleOf((aisle.to - aisle.from) * 1000, onLeft.length > 0 && onRight.length > 0, [
    ...onLeft.map((run) => [run, run.leftEnd] as const),
    ...onRight.map((run) => [run, run.rightEnd] as const),
  ])
}

/** The edge of an aisle is where its nearest row ends: others end up to a chair short of it. */
const isNear = (a: number, b: number): boolean => a - b >= -1e-6 && a - b < 1

/** Between the ends of all rows and the wall; none unless there is room for an aisle along all of them. */
function sideAisle(
  runs: readonly Run[],
  end: 'leftEnd' | 'rightEnd',
  metres: 'metresLeft' | 'metresRight',
): SurveyedAisle[] {
  if (runs.length === 0 || !runs.every((run) => run[end] === 'aisle' && run[metres] !== null)) return []
  const otherEnd = end === 'leftEnd' ? 'rightEnd' : 'leftEnd'
  const narrowest = Math.min(...runs.map((run) => run[metres] ?? 0))
  return [
    aisleOf(
      narrowest * 1000,
      false,
      runs.map((run) => [run, run[otherEnd]] as const),
    ),
  ]
}

/** A row with an aisle at its other end too sends half of its people each way. */
function aisleOf(
  clearMillimetres: number,
  seatsOnBothSides: boolean,
  rows: readonly (readonly [SurveyedRow, RowEnd])[],
): SurveyedAisle {
  const half = (row: SurveyedRow) => Math.ceil(row.seats / 2)
  return {
    clearMillimetres,
    seatsOnBothSides,
    seatsServedLeast: rows.reduce((sum, [row, end]) => sum + (end === 'no-aisle' ? row.seats : half(row)), 0),
    seatsServedMost: rows.reduce((sum, [row, end]) => sum + (end === 'aisle' ? half(row) : row.seats), 0),
  }
}
