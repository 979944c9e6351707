import type { Problem } from '../problem.ts'
import type { Choices } from './choices.ts'
import type { Rows } from './compile.ts'

/** The generation scheme as the search sees it: a list in, a schedule and its score out. */
export interface Decoder {
  readonly size: number
  /** Places the activities in the order of the list, a permutation in which everything stands after what it waits for. */
  readonly decode: (list: Int32Array) => void
  /** By activity, in ticks; NEVER when it could not be placed. Overwritten by every `decode`. */
  readonly starts: Int32Array
  readonly finishes: Int32Array
  /** What the search may choose beside the order. */
  readonly choices: Choices
  /** Lateness, moves, end, changes: compared in this order, less is better. */
  readonly score: Float64Array
}

/** What the search works on. */
export interface SearchSpace {
  readonly problem: Problem
  readonly size: number
  readonly forward: Decoder
  /** The same problem with time and links turned round; null when it cannot be turned round. */
  readonly backward: Decoder | null
  readonly predecessors: Rows
  readonly successors: Rows
  /** By activity: those of one repair share a number. */
  readonly groups: Int32Array
  /** By activity: its car; -1 for none. */
  readonly cars: Int32Array
  /** Rules to begin from, by activity: what has the least goes first, as far as the links let it. */
  readonly priorities: readonly ArrayLike<number>[]
  /** A score that no schedule can be under: the search ends when it is reached. */
  readonly bound: ArrayLike<number> | null
}
