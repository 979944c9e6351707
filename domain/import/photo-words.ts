import type { Moment } from '../car.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import { joinWords, plural, timeOfDay } from '../text/words.ts'
import type { WorkedSpan } from './photo-match-shapes.ts'

/** 'Boot floor, right, fabricated', or a task's name. */
export function workName(name: string, target: WorkTarget): string {
  return target.kind === 'gate' ? `${name}, ${target.gate}` : name
}

/** 'while Joss was clocked on Boot floor, fabricated (13:10 to 15:40)' */
export function whileWords(spans: readonly WorkedSpan[], work: string, zone: string): string {
  const people = peopleOf(spans)
  const only = people.length === 1 ? spans.at(0) : undefined
  const times = only === undefined ? '' : ` (${spanWords(only, zone)})`
  if (spans.every(({ known }) => known === 'by hand'))
    return `while ${joinWords(people)} worked on ${work} by the hours written down${times}`
  return `while ${joinWords(people)} ${people.length === 1 ? 'was' : 'were'} clocked on ${work}${times}`
}

/** '6 minutes after Joss stopped on Boot floor, fabricated (13:10 to 15:40)' */
export function besideWords(span: WorkedSpan, at: Moment, work: string, zone: string): string {
  const isBefore = at < span.from
  const distance = distanceWords(isBefore ? span.from - at : at - span.to)
  const edge = isBefore ? `before ${span.person} began` : `after ${span.person} stopped`
  return `${distance} ${edge} on ${work} (${spanWords(span, zone)})`
}

/** '4 minutes before the gate opened was passed on Boot floor' */
export function passedWords(target: WorkTarget, name: string, at: Moment, passed: Moment): string {
  const when = `${distanceWords(Math.abs(passed - at))} ${at <= passed ? 'before' : 'after'}`
  return target.kind === 'gate'
    ? `${when} the gate ${target.gate} was passed on ${name}`
    : `${when} ${name} was signed`
}

/** 'on a day for which hours of Joss are written down on Boot floor, fabricated, without times' */
export function sameDayWords(spans: readonly WorkedSpan[], work: string): string {
  return `on a day for which hours of ${joinWords(peopleOf(spans))} are written down on ${work}, without times`
}

/** 'less than a minute', '4 minutes', '3 hours'; cut down to the whole unit. */
function distanceWords(ms: number): string {
  const minutes = Math.floor(ms / 60_000)
  if (minutes < 1) return 'less than a minute'
  return minutes < 120 ? plural('minute', minutes) : plural('hour', Math.floor(minutes / 60))
}

function spanWords({ from, to, known }: WorkedSpan, zone: string): string {
  const start = timeOfDay(from, zone)
  return known === 'running' ? `since ${start}, still running` : `${start} to ${timeOfDay(to, zone)}`
}

const peopleOf = (spans: readonly WorkedSpan[]): readonly string[] => [
  ...new Set(spans.map(({ person }) => person)),
]
