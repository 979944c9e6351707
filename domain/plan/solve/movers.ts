import type { Move } from '../schedule.ts'
import type { Compiled } from './compile.ts'
import { moveDemand } from './crew-demand.ts'
import type { Crews } from './crews.ts'
import { NEVER } from './working-time.ts'

/** When a shell is moved and by whom; they are booked for it. */
export type Trip = Pick<Move, 'start' | 'finish' | 'crew'>

/** The people who move shells. */
export interface Movers {
  /** The first trip from `from` on that is over by `by`; null when there is none. */
  readonly take: (from: number, by: number) => Trip | null
  /** A trip in [since, until), as late as can be had; null when nobody can be had. */
  readonly takeLate: (since: number, until: number) => Trip | null
  readonly giveBack: (trip: Trip) => void
  readonly takeAgain: (trip: Trip) => void
}

/** How many lengths of a move before its latest end people are looked for. */
const EARLIER = 1000

export function createMovers(compiled: Compiled, crews: Crews): Movers {
  const demand = moveDemand(compiled)
  const least = Math.max(1, demand.work)

  const find = (from: number): void => {
    if (demand.people > 0 && demand.work > 0) return crews.find(demand, from, 0)
    crews.start = from
    crews.finish = from + demand.work
  }
  const takeFound = (): Trip => {
    if (demand.work > 0) crews.take(demand.people)
    const crew = Array.from(crews.chosen.subarray(0, demand.people))
    return { start: crews.start, finish: crews.finish, crew }
  }
  return {
    take: (from, by) => {
      find(from)
      return crews.start === NEVER || crews.finish > by ? null : takeFound()
    },
    takeLate: (since, until) => {
      for (let before = least; before <= EARLIER * least; before = Math.ceil(before * 1.25)) {
        find(Math.max(since, until - before))
        if (crews.finish <= until) return takeFound()
      }
      return null
    },
    giveBack: ({ crew, start, finish }) => {
      if (demand.work > 0) crews.giveBack(crew, start, finish)
    },
    takeAgain: ({ crew, start, finish }) => {
      if (demand.work > 0) crews.book(crew, start, finish)
    },
  }
}
