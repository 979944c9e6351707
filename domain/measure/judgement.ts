import { fixed, rounded } from '../text/words.ts'

/** What a set of readings comes to: inside its limits, or the problems in the workshop's words. */
export interface Judgement {
  readonly inside: boolean
  readonly problems: readonly string[]
}

export function judgementOf(problems: readonly string[]): Judgement {
  return { inside: problems.length === 0, problems }
}

/**
 * Readings and limits are compared to two decimals: no gauge on the floor reads finer, what lies below is noise of
 * floating point, and so the words, which show two decimals at most, never contradict the judgement.
 */
export function toHundredths(value: number): number {
  return rounded(value, 2)
}

/** A figure as it was read: up to two decimals, '5' and not '5.00'. */
export function asRead(value: number): string {
  return fixed(value, 2).replace(/\.?0+$/, '')
}
