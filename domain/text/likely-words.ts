import { fixed, rounded } from './words.ts'

/** Person-hours not exceeded with 50 and with 80 % likelihood. */
export interface LikelyHours {
  readonly p50: number
  readonly p80: number
}

/** 'Half the time 212 h or less; four times in five 251 h or less.' */
export function bandSentence(band: LikelyHours): string {
  const [low, high] = likelyFigures(band)
  return `Half the time ${low} h or less; four times in five ${high} h or less.`
}

/** '41 to 52 h', '41 h' where both round alike. */
export function rangeWords(band: LikelyHours): string {
  const [low, high] = likelyFigures(band)
  return low === high ? `${high} h` : `${low} to ${high} h`
}

/**
 * Both as people say them, without the unit. Tenths are said below 20 h only: more would feign to know.
 *
 * @param write a figure in the language that it is said in; English unless said
 */
export function likelyFigures(
  { p50, p80 }: LikelyHours,
  write: (value: number, decimals: 0 | 1) => string = fixed,
): readonly [p50: string, p80: string] {
  const figure = (value: number): string =>
    write(value, p80 >= WHOLE_FROM || Number.isInteger(rounded(value, 1)) ? 0 : 1)
  return [figure(p50), figure(p80)]
}

/** '41', '8.5' of a single figure. */
export const likelyFigure = (value: number): string => likelyFigures({ p50: value, p80: value })[0]

const WHOLE_FROM = 20
