/** What light, picture, sound and air can do, and how long they take: facts to be set per site. */
export {
  DIMMER_FACTS,
  type DimmerFact,
  LOWEST_LEVELS,
  type LowestLevel,
  PERCEIVED_LEVEL_SOURCE,
  perceivedPercent,
} from './dimmer-minimum.ts'
export {
  DMX_BREAK_MICROSECONDS_LEAST,
  DMX_FULL_UNIVERSE,
  DMX_LOST_BELOW_HERTZ,
  DMX_LOST_SOURCE,
  DMX_MARK_MICROSECONDS_LEAST,
  DMX_SAFETY_NOTE,
  DMX_SLOT_MICROSECONDS,
  DMX_SLOTS_MOST,
  DMX_TIMING_SOURCE,
  type DmxFrame,
  dmxRefreshHertz,
  dmxRefreshMicroseconds,
  dmxSignalIsLost,
} from './dmx512.ts'
export {
  EGRESS_LIGHT,
  type EgressLight,
  EMERGENCY_LIGHT_LEAST,
  EMERGENCY_LIGHT_RATIO_MOST,
  luxFromFootCandles,
} from './egress-light.ts'
export {
  type HotRestrikeProblem,
  hotRestrikeProblem,
  METAL_HALIDE_SPANS,
  RESTRIKE_EARLY_POWER_NOTE,
  RESTRIKE_PLAN_SECONDS,
} from './metal-halide.ts'
export { PROJECTOR_SPANS } from './projector-spans.ts'
export { airOutSeconds, ROOM_AIR_SPANS } from './room-air.ts'
export {
  candelasPerSquareMetre,
  DARK_ROOM_FOOT_LAMBERTS,
  leastScreenFootLamberts,
  SCREEN_LUMINANCE_SOURCE,
  screenFootLamberts,
} from './screen-luminance.ts'
export { SOUND_SPANS } from './sound-spans.ts'
export type { SourcedSpan } from './sourced-span.ts'
export {
  FARTHEST_VIEWERS,
  type FarthestViewer,
  farthestViewerMetres,
  NEAREST_VIEWER_IMAGE_HEIGHTS,
  NEAREST_VIEWER_SOURCE,
  nearestViewerMetres,
  type ViewingUse,
} from './viewing-distance.ts'
