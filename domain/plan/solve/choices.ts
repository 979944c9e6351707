import type { Compiled } from './compile.ts'

/** Where the first that offers itself is not always best. For the search to set; all 0 at first. */
export interface Choices {
  /** By car: 0 for the bay that can be had soonest, 1 for the next, and so on. */
  readonly bay: Int32Array
  /** By activity: 0 for the crew that finishes first, 1 for one without one of them, and so on. */
  readonly crew: Int32Array
  /** By activity: 1 when another car, whose work comes later in the list, is sent to the yard to make room for it. */
  readonly claims: Int32Array
  /** By activity: 1 when its car goes to another bay for it even if it could be done where the shell stands. */
  readonly elsewhere: Int32Array
  /** By activity: a car, counted from 1, that is brought into the bay of its next work before this is placed. */
  readonly fetches: Int32Array
}

/** The first that offers itself. */
export const createChoices = ({ size, problem }: Pick<Compiled, 'size' | 'problem'>): Choices => ({
  bay: new Int32Array(problem.cars.length),
  crew: new Int32Array(size),
  claims: new Int32Array(size),
  elsewhere: new Int32Array(size),
  fetches: new Int32Array(size),
})

export const copyChoices = (from: Choices, to: Choices): void => {
  to.bay.set(from.bay)
  to.crew.set(from.crew)
  to.claims.set(from.claims)
  to.elsewhere.set(from.elsewhere)
  to.fetches.set(from.fetches)
}
