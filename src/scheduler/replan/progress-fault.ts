/** One thing that is wrong with what is told of a turn. */
export interface ProgressFault {
  /** JSON pointer into what is told. */
  readonly at: string
  readonly message: string
}
