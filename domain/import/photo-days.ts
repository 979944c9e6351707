import type { Moment } from '../car.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import type { CarId } from '../ids.ts'
import { dayEnd, dayStart, localDateOf } from '../time/zone.ts'
import { targetKey } from '../value/target.ts'
import type { CarForPhotos, PhotoMatch } from './photo-match-shapes.ts'

/** Work on one local day that a photo of that day fits or lies near. */
export interface DayWork {
  readonly carId: CarId
  readonly target: WorkTarget
  /** Clocks and hours with times, cut to the day. */
  readonly spans: readonly { readonly from: Moment; readonly to: Moment }[]
  readonly passed: readonly Moment[]
}

export interface CardDay {
  /** Local date, YYYY-MM-DD. */
  readonly date: string
  readonly works: readonly DayWork[]
}

/** The days on which the photos were taken, in order, each with the work that they are set beside. */
export function cardDays(
  cars: readonly CarForPhotos[],
  matches: readonly PhotoMatch[],
  zone: string,
): readonly CardDay[] {
  const dated = matches.flatMap((match) => (match.taken === null ? [] : [{ ...match, taken: match.taken }]))
  const byDate = Map.groupBy(
    dated.toSorted((a, b) => a.taken - b.taken),
    ({ taken }) => localDateOf(taken, zone),
  )
  return [...byDate].flatMap(([date, ofDay]) => {
    const works = worksOf(cars, ofDay, dayStart(date, zone), dayEnd(date, zone))
    return works.length === 0 ? [] : [{ date, works }]
  })
}

function worksOf(
  cars: readonly CarForPhotos[],
  matches: readonly PhotoMatch[],
  start: Moment,
  end: Moment,
): readonly DayWork[] {
  const named = matches.flatMap(({ fits, others }) => [...fits, ...others])
  const works = new Map(
    named.map(({ carId, target }) => [`${carId}/${targetKey(target)}`, { carId, target }]),
  )
  return [...works.values()].flatMap(({ carId, target }) => {
    const car = cars.find((each) => each.carId === carId)
    const isIt = (each: { readonly target: WorkTarget }) => targetKey(each.target) === targetKey(target)
    const spans = (car?.worked ?? [])
      .filter((span) => isIt(span) && span.known !== 'day' && span.to > start && span.from < end)
      .map(({ from, to }) => ({ from: Math.max(from, start), to: Math.min(to, end) }))
    const passed = (car?.passed ?? [])
      .filter((pass) => isIt(pass) && pass.at >= start && pass.at < end)
      .map(({ at }) => at)
    return spans.length + passed.length === 0 ? [] : [{ carId, target, spans, passed }]
  })
}
