import type { Problem } from '../problem.ts'

/** From `from` up to, not including, `to`. */
export interface Span {
  readonly from: number
  readonly to: number
}

/** The spans, in order and apart, in which a crew is at work together, less a fire watch before each day's end. */
export type JointTime = (crew: readonly number[], watch: number) => readonly Span[]

export function createJointTime(problem: Problem): JointTime {
  const ends = dayEnds(problem)
  const known = new Map<string, readonly Span[]>()
  return (crew, watch) => {
    const calendars = [...new Set(crew.map((person) => calendarOf(problem, person)))].toSorted(
      (a, b) => a - b,
    )
    const key = `${calendars.join()} ${watch}`
    const found = known.get(key)
    if (found !== undefined) return found
    const together = calendars.map((calendar) => spansOf(problem, calendar)).reduce(intersection)
    const spans =
      watch === 0
        ? together
        : without(
            together,
            ends.map((end) => ({ from: end - watch, to: end })),
          )
    known.set(key, spans)
    return spans
  }
}

/** Ticks of the spans that lie in [from, to). */
export const ticksWithin = (spans: readonly Span[], from: number, to: number): number =>
  spans.reduce((sum, span) => sum + Math.max(0, Math.min(span.to, to) - Math.max(span.from, from)), 0)

export const isWithin = (spans: readonly Span[], tick: number): boolean =>
  spans.some((span) => span.from <= tick && tick < span.to)

/** When the last person of a local day goes. A day whose work runs on over midnight has no such moment. */
function dayEnds(problem: Problem): readonly number[] {
  const anybody = union(problem.people.flatMap((_, person) => spansOf(problem, calendarOf(problem, person))))
  return problem.midnights.slice(1).flatMap((midnight, index) => {
    const dayStart = problem.midnights[index] ?? midnight
    const last = anybody.findLast((span) => span.from < midnight && span.to > dayStart)
    return last === undefined || last.to > midnight ? [] : [last.to]
  })
}

/** Spans that touch become one. */
function union(spans: readonly Span[]): readonly Span[] {
  const merged: Span[] = []
  for (const span of spans.toSorted((a, b) => a.from - b.from)) {
    const last = merged.at(-1)
    if (last === undefined || last.to < span.from) merged.push(span)
    else merged[merged.length - 1] = { from: last.from, to: Math.max(last.to, span.to) }
  }
  return merged
}

/** Both lists are in order; a span that ends before one of the first list begins meets none of the later ones. */
function intersection(one: readonly Span[], other: readonly Span[]): readonly Span[] {
  const common: Span[] = []
  let at = 0
  for (const a of one) {
    while (at < other.length && (other[at] as Span).to <= a.from) at += 1
    for (let next = at; next < other.length && (other[next] as Span).from < a.to; next += 1) {
      const b = other[next] as Span
      common.push({ from: Math.max(a.from, b.from), to: Math.min(a.to, b.to) })
    }
  }
  return common
}

function without(spans: readonly Span[], cuts: readonly Span[]): readonly Span[] {
  return cuts.reduce<readonly Span[]>(
    (left, cut) =>
      left.flatMap((span) =>
        span.to <= cut.from || cut.to <= span.from
          ? [span]
          : [
              { from: span.from, to: cut.from },
              { from: cut.to, to: span.to },
            ].filter(({ from, to }) => from < to),
      ),
    spans,
  )
}

const calendarOf = (problem: Problem, person: number): number => {
  const found = problem.people[person]
  if (found === undefined) throw new RangeError(`There is no person ${person}.`)
  return found.calendar
}

const spansOf = (problem: Problem, calendar: number): readonly Span[] => {
  const found = problem.calendars[calendar]
  if (found === undefined) throw new RangeError(`There is no calendar ${calendar}.`)
  return found.spans
}
