/** How many streams of events there are at most, how they are kept alive, and how long a slow client is waited for. */
export interface EventSettings {
  /** Whoever comes then is asked to come back. */
  readonly streamsMost: number
  /** How often it is looked for what another process has written. */
  readonly pollMilliseconds: number
  /** What is written so soon after others were told is told together at the end of that time. */
  readonly gatherMilliseconds: number
  /** How often a comment is sent, for the sake of proxies that close connections on which nothing is said. */
  readonly keepAliveMilliseconds: number
  /** A client that lets more wait than this while others are told the same is cut off. */
  readonly waitingBytesMost: number
  /** A client that has taken nothing of what waits for it for so many keep-alives is cut off. */
  readonly keepAlivesMissedMost: number
}

/** @source WHATWG HTML Living Standard, section "Server-sent events", "Authoring notes": a comment every 15 s or so */
export const defaultEventSettings: EventSettings = {
  streamsMost: 500,
  pollMilliseconds: 2_000,
  gatherMilliseconds: 100,
  keepAliveMilliseconds: 15_000,
  waitingBytesMost: 1_048_576,
  keepAlivesMissedMost: 4,
}
