import { fixed } from './words.ts'

/** Person-hours not exceeded with 50 and with 80 % likelihood. */
export interface LikelyHours {
  readonly p50: number
  readonly p80: number
}

/** 'Half the time 212 h or less; four times in five 251 h or less.' */
export function bandSentence({ p50, p80 }: LikelyHours): string {
  return `Half the time ${likelyHours(p50)} or less; four times in five ${likelyHours(p80)} or less.`
}

/** '41 to 52 h', '41 h' where both round alike. */
export function rangeWords({ p50, p80 }: LikelyHours): string {
  const [low, high] = [likelyFigure(p50), likelyFigure(p80)]
  return low === high ? `${high} h` : `${low} to ${high} h`
}

/** '41 h', '8.5 h' */
export const likelyHours = (value: number): string => `${likelyFigure(value)} h`

/** '41', '8.5': without the unit, for a row of figures. Tenths are said below 20 h only: more would feign to know. */
export const likelyFigure = (value: number): string =>
  value < WHOLE_FROM ? fixed(value, 1).replace(/\.0$/, '') : fixed(value, 0)

const WHOLE_FROM = 20
