/** An answer to a problem, by the problem's indices and ticks. */
export interface Schedule {
  /** By activity; null when it could not be placed. */
  readonly placed: readonly (Placement | null)[]
  readonly stays: readonly Stay[]
  readonly moves: readonly Move[]
}

export interface Placement {
  readonly start: number
  readonly finish: number
  readonly crew: readonly number[]
  /** The bay the shell stands in; null for work that needs none. */
  readonly bay: number | null
}

/** One car in one bay, working or waiting. `to` is when the shell has left: the finish of the move, or of its last work. */
export interface Stay {
  readonly car: number
  readonly bay: number
  readonly from: number
  readonly to: number
}

/**
 * A change of place. From the start of the move to its finish both bays are taken; `from` is null for a shell that comes
 * from outside. No work is done on the shell meanwhile.
 */
export interface Move {
  readonly car: number
  readonly from: number | null
  readonly to: number
  readonly start: number
  readonly finish: number
  readonly crew: readonly number[]
}

/** Compared in this order; less is better. Lateness in weighted ticks; end is the last finish, tails included. */
export interface Score {
  readonly lateness: number
  readonly moves: number
  readonly end: number
  readonly changes: number
}
