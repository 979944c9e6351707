import type { Moment } from '../car.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import { targetKey } from '../value/target.ts'
import type { CarForPhotos, PassedWork, WorkedSpan } from './photo-match-shapes.ts'
import { besideWords, passedWords, sameDayWords, whileWords, workName } from './photo-words.ts'

/**
 * How close a photo lies to a piece of work. 'within': in a span that somebody worked on it; 'beside': up to 10 minutes
 * from such a span, or from 30 minutes before its passing to 10 after; 'same day': hours of that day without times;
 * 'far': up to 4 hours from either, which is no more than a hint.
 */
type Closeness = 'within' | 'beside' | 'same day' | 'far'

export interface Candidate {
  readonly car: CarForPhotos
  readonly target: WorkTarget
  readonly close: Closeness
  /** Milliseconds to the nearest span or passing; 0 within. */
  readonly distance: number
  /** Within a span whose times a clock has taken. */
  readonly clocked: boolean
  /** Put into words for the few that are shown. */
  readonly why: () => string
}

const MINUTE_MS = 60_000
export const BESIDE_CLOCK_MS = 10 * MINUTE_MS
export const BEFORE_PASSING_MS = 30 * MINUTE_MS
const AFTER_PASSING_MS = 10 * MINUTE_MS
export const FAR_MS = 240 * MINUTE_MS

/** Every gate and task of the cars that a photo taken at this moment may belong to, the closest first. */
export function candidatesAt(cars: readonly CarForPhotos[], at: Moment, zone: string): readonly Candidate[] {
  return cars
    .flatMap((car) => [...byTarget(car, at)].flatMap((work) => candidate(car, work, at, zone) ?? []))
    .toSorted((a, b) => RANKS.indexOf(a.close) - RANKS.indexOf(b.close) || a.distance - b.distance)
}

const RANKS: readonly Closeness[] = ['within', 'beside', 'same day', 'far']

interface WorkNearby {
  readonly target: WorkTarget
  readonly spans: readonly WorkedSpan[]
  readonly passed: readonly PassedWork[]
}

function byTarget(car: CarForPhotos, at: Moment): readonly WorkNearby[] {
  const spans = car.worked.filter(({ from, to }) => distanceTo(at, from, to) <= FAR_MS)
  const passed = car.passed.filter((each) => Math.abs(each.at - at) <= FAR_MS)
  const spansByKey = Map.groupBy(spans, ({ target }) => targetKey(target))
  const passedByKey = Map.groupBy(passed, ({ target }) => targetKey(target))
  const targets = new Map([...spans, ...passed].map(({ target }) => [targetKey(target), target]))
  return [...targets].map(([key, target]) => ({
    target,
    spans: spansByKey.get(key) ?? [],
    passed: passedByKey.get(key) ?? [],
  }))
}

function candidate(
  car: CarForPhotos,
  { target, spans, passed }: WorkNearby,
  at: Moment,
  zone: string,
): Candidate | null {
  const name = car.nameOf(target)
  const work = workName(name, target)
  const timed = spans.filter(({ known }) => known !== 'day')
  const within = timed.filter(({ from, to }) => from <= at && at <= to)
  if (within.length > 0) {
    const clocked = within.some(({ known }) => known !== 'by hand')
    return { car, target, close: 'within', distance: 0, clocked, why: () => whileWords(within, work, zone) }
  }
  const nearest = [
    ...timed.map((span) => ({
      distance: distanceTo(at, span.from, span.to),
      isBeside: distanceTo(at, span.from, span.to) <= BESIDE_CLOCK_MS,
      why: () => besideWords(span, at, work, zone),
    })),
    ...passed.map((pass) => ({
      distance: Math.abs(pass.at - at),
      isBeside: isBesidePassing(car, pass, at),
      why: () => passedWords(target, name, at, pass.at),
    })),
  ].toSorted((a, b) => Number(b.isBeside) - Number(a.isBeside) || a.distance - b.distance)[0]
  const found = { car, target, clocked: false }
  if (nearest?.isBeside === true)
    return { ...found, close: 'beside', distance: nearest.distance, why: nearest.why }
  const sameDay = spans.filter(({ known, from, to }) => known === 'day' && from <= at && at < to)
  if (sameDay.length > 0)
    return { ...found, close: 'same day', distance: FAR_MS, why: () => sameDayWords(sameDay, work) }
  return nearest === undefined
    ? null
    : { ...found, close: 'far', distance: nearest.distance, why: nearest.why }
}

/** What was taken before the gate before was passed is no evidence of this one, however soon both were signed. */
function isBesidePassing(car: CarForPhotos, { target, at: passed }: PassedWork, at: Moment): boolean {
  if (at < passed - BEFORE_PASSING_MS || at > passed + AFTER_PASSING_MS) return false
  if (target.kind === 'task') return true
  const { after } = car.gate(target.repairId, target.gate)
  return after === null || at >= after.at
}

/** Milliseconds from a moment to a span; 0 within it. */
function distanceTo(at: Moment, from: Moment, to: Moment): number {
  return Math.max(0, from - at, at - to)
}
