import type { Move, Stay } from '../schedule.ts'
import { type Bound, lastBound } from './bound.ts'
import type { ToldSchedule } from './told-schedule.ts'

/** Work on a shell starts when it has been moved in; what held the move, holds the work. */
export function createFloorBounds(told: ToldSchedule): (activity: number) => readonly Bound[] {
  const { problem, schedule } = told
  const known = new Map<Move, Bound>()
  return (activity) => {
    const placement = schedule.placed[activity] ?? null
    const car = problem.activities[activity]?.car ?? null
    if (placement === null || car === null || placement.bay === null) return []
    const move = lastMoveInto(placement.bay, car, placement.start, schedule.moves)
    if (move === undefined) return []
    const bound = known.get(move) ?? moveBound(told, move)
    known.set(move, bound)
    return [bound]
  }
}

const lastMoveInto = (bay: number, car: number, tick: number, moves: readonly Move[]): Move | undefined =>
  moves
    .filter((each) => each.car === car && each.to === bay && each.finish <= tick)
    .toSorted((a, b) => a.finish - b.finish)
    .at(-1)

/** A move that was put off on purpose stands for itself. */
function moveBound(told: ToldSchedule, move: Move): Bound {
  const own = lastBound(boundsOfMove(told, move).filter(({ tick }) => tick <= move.start))
  const bay = told.bay(move.to)
  const begins =
    own === null || move.crew.length === 0 ? (own?.tick ?? 0) : told.atWork(move.crew, 0, own.tick)
  const isHeld = own !== null && begins === move.start
  return {
    tick: move.finish,
    reason: isHeld ? own.reason : 'move',
    words: () =>
      isHeld
        ? `${own.words()}; moved into ${bay} by ${told.at(move.finish)}`
        : `waits until ${told.at(move.finish)}, when the shell is moved into ${bay}`,
  }
}

function boundsOfMove(told: ToldSchedule, move: Move): readonly Bound[] {
  const { problem, schedule, at, bay, car } = told
  const name = bay(move.to)
  const arrives = move.from === null ? (problem.cars[move.car]?.arrives ?? 0) : 0
  const bookings = problem.cars.flatMap(({ bookings: all }, booked) =>
    all
      .filter((each) => each.bay === move.to)
      .map((each): Bound => {
        const isOwn = booked === move.car && move.start < each.to
        return isOwn
          ? {
              tick: each.from,
              reason: 'pinned',
              words: () => `waits for the booking of ${name} from ${at(each.from)}`,
            }
          : {
              tick: each.to,
              reason: 'bay',
              words: () => `waits for ${name}, booked for ${car(booked)} until ${at(each.to)}`,
            }
      }),
  )
  return [
    ...(arrives > 0
      ? [
          {
            tick: arrives,
            reason: 'away' as const,
            words: () => `waits for the car, expected ${at(arrives)}`,
          },
        ]
      : []),
    ...bookings,
    ...staysBefore(told, move).map(({ car: other, to }): Bound => ({
      tick: to,
      reason: 'bay',
      words: () => `waits for ${name}, free from ${at(to)} when ${car(other)} has left`,
    })),
    ...earlierWork(told, move),
    ...schedule.moves
      .filter((each) => each.car === move.car && each !== move && each.finish <= move.start)
      .map(({ finish }): Bound => ({
        tick: finish,
        reason: 'move',
        words: () => `waits for another move until ${at(finish)}`,
      })),
    ...told
      .peopleBefore(move.crew, move.start, move.car)
      .map((bound): Bound => ({ ...bound, reason: 'move' })),
  ]
}

/** Others in the bay before, where it takes no more than it holds. */
const staysBefore = ({ problem, schedule }: ToldSchedule, move: Move): readonly Stay[] =>
  problem.bays[move.to]?.storage === true
    ? []
    : schedule.stays.filter(
        ({ bay, car, from, to }) => bay === move.to && car !== move.car && from < to && to <= move.start,
      )

const earlierWork = ({ problem, schedule, at, work }: ToldSchedule, move: Move): readonly Bound[] =>
  schedule.placed.flatMap((placement, activity): Bound[] => {
    if (placement === null || placement.bay === null || placement.finish > move.start) return []
    if (problem.activities[activity]?.car !== move.car) return []
    return [
      {
        tick: placement.finish,
        reason: 'move',
        words: () => `waits for ${work(activity, move.car)} in the bay before until ${at(placement.finish)}`,
      },
    ]
  })
