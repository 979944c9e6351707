import type { Compiled } from './compile.ts'
import { NEVER } from './working-time.ts'

/** Where the first that offers itself is not always best. For the search to set. */
export interface Choices {
  /** By car: ticks that it stands idle in its bay before it makes room; NEVER at first. */
  readonly patience: Int32Array
  /** By car: 0 for the bay that can be had soonest, 1 for the next, and so on. */
  readonly bay: Int32Array
  /** By activity: 0 for the crew that finishes first, 1 for one without one of them, and so on. */
  readonly crew: Int32Array
  /** By activity: 1 when its car makes room as soon as it is done; 0 at first. */
  readonly leave: Int32Array
}

/** The first that offers itself, and patience without end. */
export const createChoices = ({ size, problem }: Pick<Compiled, 'size' | 'problem'>): Choices => ({
  patience: new Int32Array(problem.cars.length).fill(NEVER),
  bay: new Int32Array(problem.cars.length),
  crew: new Int32Array(size),
  leave: new Int32Array(size),
})

export const copyChoices = (from: Choices, to: Choices): void => {
  to.patience.set(from.patience)
  to.bay.set(from.bay)
  to.crew.set(from.crew)
  to.leave.set(from.leave)
}
