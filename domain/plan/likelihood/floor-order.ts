import type { Problem } from '../problem.ts'
import type { Move, Schedule, Stay } from '../schedule.ts'
import { chains } from './chains.ts'
import { eachBefore, inARow, type Pair } from './pair.ts'

/** A stay with the moves that begin and end it, and what is done on the shell meanwhile; by item, moves after activities. */
interface WorkedStay {
  readonly stay: Stay
  readonly into: readonly number[]
  readonly out: readonly number[]
  readonly work: readonly number[]
}

/** Work between the moves into a bay and out of it, the moves of a shell in their order, and who has a bay next. */
export function floorPairs(problem: Problem, schedule: Schedule): readonly Pair[] {
  const stays = workedStays(problem, schedule)
  return [
    ...movesOfCars(problem, schedule).flatMap(inARow),
    ...stays.flatMap(({ into, work, out }) => [...eachBefore(into, work), ...eachBefore(work, out)]),
    ...problem.bays.flatMap(({ places, storage }, bay) =>
      storage
        ? []
        : turns(
            stays.filter(({ stay }) => stay.bay === bay),
            places,
          ),
    ),
  ]
}

/** A shell that is not moved out leaves with the last of its work there. */
function turns(stays: readonly WorkedStay[], places: number): readonly Pair[] {
  const uses = stays.map(({ stay: { from, to } }) => ({ from, to, amount: 1 }))
  return chains(uses, places).flatMap(([one, other]) => {
    const { out, work } = stays[one] as WorkedStay
    return eachBefore(out.length > 0 ? out : work, (stays[other] as WorkedStay).into)
  })
}

const movesOfCars = ({ cars, activities }: Problem, { moves }: Schedule): readonly (readonly number[])[] => {
  const byCar = cars.map((): number[] => [])
  const startOf = (index: number): number => (moves[index] as Move).start
  for (const index of [...moves.keys()].toSorted((a, b) => startOf(a) - startOf(b)))
    byCar[(moves[index] as Move).car]?.push(activities.length + index)
  return byCar
}

function workedStays(problem: Problem, { stays, moves, placed }: Schedule): readonly WorkedStay[] {
  const size = problem.activities.length
  const movesWhere = (is: (move: Move) => boolean): readonly number[] =>
    moves.flatMap((move, index) => (is(move) ? [size + index] : []))
  const inBays = problem.cars.map((): number[] => [])
  problem.activities.forEach(({ car, bayKind }, index) => {
    if (car !== null && bayKind !== null && (placed[index] ?? null) !== null) inBays[car]?.push(index)
  })
  return stays.map((stay) => ({
    stay,
    into: movesWhere(({ car, to, start }) => car === stay.car && to === stay.bay && start === stay.from),
    out: movesWhere(({ car, from, finish }) => car === stay.car && from === stay.bay && finish === stay.to),
    work: (inBays[stay.car] ?? []).filter((index) => {
      const placement = placed[index]
      return placement?.bay === stay.bay && placement.start >= stay.from && placement.finish <= stay.to
    }),
  }))
}
