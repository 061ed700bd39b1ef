/** A length of time that sources disagree about, or that differs from hall to hall: a range to be set per site. */
export interface SourcedSpan {
  readonly what: string
  readonly leastSeconds: number
  readonly mostSeconds: number
  readonly source: string
}
