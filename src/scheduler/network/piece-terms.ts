/** How the work of a lot of pieces comes about: pieces × handling, and its loads × trolley and way. */
import type { ReckonedNumber, ReckonedTerm } from '../../domain/reckoning.ts'
import { piecesText } from '../wording/pieces-text.ts'
import type { FloorWay } from './floor-carry.ts'
import type { LoadLot } from './lots.ts'
import type { NetworkInput } from './network-input.ts'
import { handlingRate, type PieceJob } from './piece-jobs.ts'
import { computedNumber, givenNumber, ownNumber, ratedNumber, singleRate, term } from './reckoned-numbers.ts'
import { distanceText } from './task-catalogue/words.ts'
import { beyondShortCarryMetres, speedOfLoad } from './travel.ts'

/** @param lot  one of the job's */
export function pieceTerms(input: NetworkInput, job: PieceJob, lot: LoadLot): ReckonedTerm[] {
  const { furnishing, way } = job
  const { pieces, piecesOnALoad } = lot
  const count = givenNumber('pieces', pieces, 'pieces', 'What stands and what the layout asks for')
  const terms = [term('handling', [count, handlingNumber(input, job)])]
  if (job.onFloor && job.load) return [...terms, ...floorTerms(input, job, job.onFloor, lot)]
  if (!job.withStore) return terms
  const loads = computedNumber(
    'loads',
    lot.loads,
    'loads',
    lot.loads < 1
      ? `Its part of one load of ${piecesOnALoad}, which several tasks share`
      : `${piecesText(pieces, furnishing)}, at most ${way.piecesPerLoad} to a load`,
  )
  const people = givenNumber(
    'people with each load',
    way.people,
    'hands',
    way.byTrolley
      ? `Who pushes a trolley of ${furnishing.namePlural}`
      : `Who carries ${furnishing.namePlural}`,
  )
  if (way.byTrolley) {
    const handling = singleRate(input, 'handling of a trolley', 'seconds', 'trolleyHandlingSeconds')
    terms.push(term('trolley', [loads, people, handling]))
  }
  if (beyondShortCarryMetres(way, input.rates) > 0) {
    const beyond = distanceNumber(input, job)
    const speedName = way.byTrolley ? 'with a loaded trolley' : 'with a load'
    const loadedPath = speedOfLoad(job)
    const loaded = singleRate(input, speedName, 'metres per second', loadedPath)
    const walking = singleRate(input, 'on foot', 'metres per second', 'walkingMetresPerSecond')
    terms.push(term('way with the load', [loads, people, beyond], [loaded]))
    terms.push(term('way back', [loads, people, beyond], [walking]))
  }
  if (way.rideSeconds > 0) {
    const ride = givenNumber('lift there and back', 2 * way.rideSeconds, 'seconds', 'The lifts on the way')
    terms.push(term('lift', [loads, people, ride], [], false))
  }
  return terms
}

/** Across the floor, where it is known from where to where. */
function floorTerms(
  input: NetworkInput,
  { furnishing }: PieceJob,
  way: FloorWay,
  { pieces, loads: loadCount, piecesOnALoad }: LoadLot,
): ReckonedTerm[] {
  const loads = computedNumber(
    'loads',
    loadCount,
    'loads',
    loadCount < 1
      ? `Its part of one load of ${piecesOnALoad}, which several tasks share`
      : `${piecesText(pieces, furnishing)}, at most ${way.piecesPerLoad} ${way.byTrolley ? 'to a trolley' : 'at a time'}`,
  )
  const people = givenNumber(
    'people with each load',
    way.people,
    'hands',
    `Who moves ${furnishing.namePlural}`,
  )
  const beyond = computedNumber(
    `beyond the short carry of ${distanceText(input.rates.shortCarryMetres, input.units)}, one way, the mean of all`,
    way.carry.beyondMetres,
    'metres',
    `Along the floor from where they stood to where they go, ${distanceText(way.carry.metres, input.units)} on average`,
  )
  const speedName = way.byTrolley ? 'with a loaded trolley' : 'with a load'
  const loaded = singleRate(input, speedName, 'metres per second', speedOfLoad({ furnishing, way }))
  const walking = singleRate(input, 'on foot', 'metres per second', 'walkingMetresPerSecond')
  const handling = singleRate(input, 'handling of a trolley', 'seconds', 'trolleyHandlingSeconds')
  return [
    ...(way.byTrolley ? [term('trolley', [loads, people, handling])] : []),
    term('way with the load', [loads, people, beyond], [loaded]),
    term('way back', [loads, people, beyond], [walking]),
  ]
}

function handlingNumber(input: NetworkInput, { furnishing, way, direction, handlingEach }: PieceJob) {
  const { table, figure } = handlingRate(way, direction)
  const name = 'handling of one piece'
  const unit = 'person-seconds per piece'
  if (furnishing[figure] !== null) return ownNumber(name, handlingEach, unit, furnishing.namePlural)
  return ratedNumber(input, name, handlingEach, unit, `${table}.${furnishing.kind}.${figure}`)
}

function distanceNumber(input: NetworkInput, { way }: PieceJob): ReckonedNumber {
  const { rates, units } = input
  const beyondMetres = beyondShortCarryMetres(way, rates)
  const name = `beyond the short carry of ${distanceText(rates.shortCarryMetres, units)}, one way`
  if (way.distanceIsKnown) {
    return givenNumber(
      name,
      beyondMetres,
      'metres',
      `The route from the ${way.store.name}, ${distanceText(way.distanceMetres, units)}`,
    )
  }
  return ratedNumber(input, `${name}, no route being on record`, beyondMetres, 'metres', 'routeUnknownMetres')
}
