import type { Bias } from '../estimate/accuracy.ts'
import type { BandMethod } from '../estimate/learned-ratios.ts'
import { fixed, plural } from '../text/words.ts'
import type { Verdict, WithinView } from './were-we-right-shapes.ts'

/** '80 % figures held for 31 of 40, as they should'; 'too low: 24 of 40'. */
export function withinWords({ percent, count, jobs, verdict }: Omit<WithinView, 'words'>): string {
  return `${percent} % figures ${VERDICT_WORDS[verdict](`${count} of ${jobs}`)}`
}

const VERDICT_WORDS: Readonly<Record<Verdict, (held: string) => string>> = {
  'as it should': (held) => `held for ${held}, as they should`,
  'too low': (held) => `were too low: they held for ${held}`,
  'too high': (held) => `were higher than needed: they held for ${held}`,
  'too few': (held) => `held for ${held}: too few to tell`,
}

/** How far real hours lay from the estimate in the geometric mean, and whether so many jobs can tell. */
export function biasWords({ mean, interval }: Omit<Bias, 'median'>, jobs: number): string {
  const ran = `Real hours ran ${offWords(mean)} the estimate`
  if (interval === null || jobs < LEAN_FROM) return `${ran}; ${plural('job', jobs)} cannot tell more`
  const range = `${offFigure(interval.low)} to ${offFigure(interval.high)}`
  return interval.low <= 1 && interval.high >= 1
    ? `${ran}; between ${range} is possible, so they may lean neither way`
    : `${ran}; likely ${range}`
}

/** With fewer the interval of the mean is wider than anybody would believe. */
const LEAN_FROM = 4

/** '8 % over', 'close to' */
const offWords = (ratio: number): string => {
  const percent = percentOff(ratio)
  return percent === '0' ? 'close to' : `${percent} % ${ratio > 1 ? 'over' : 'under'}`
}

/** '+8 %', '−3 %' */
const offFigure = (ratio: number): string => {
  const percent = percentOff(ratio)
  return percent === '0' ? '0 %' : `${ratio > 1 ? '+' : '−'}${percent} %`
}

const percentOff = (ratio: number): string => fixed(Math.abs(ratio - 1) * 100, 0)

export function methodWords(method: BandMethod, finished: number): string {
  const own = plural('finished repair', finished)
  switch (method) {
    case 'order statistic':
      return `Read from ${own} in order of size`
    case 'normal-inverse-gamma':
      return `Learned from ${own}, starting from the other types`
    case 'prior':
      return `Banded by the other types, with ${own} of its own`
  }
}

/** Null from so many on that the figures say something. */
export function fewWords(stated: number): string | null {
  if (stated >= USEFUL_FROM) return null
  const finished = stated === 1 ? '1 repair is' : `${stated} repairs are`
  return `${finished} finished of which hours were said; the figures become useful from ${USEFUL_FROM} on.`
}

/** With 16 of so many the 95 % interval of the share still reaches from 58 to 92 %; with fewer it rules out hardly anything. */
export const USEFUL_FROM = 20
