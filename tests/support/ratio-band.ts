import {
  type BandMethod,
  learnRatios,
  logRatiosAt,
  ONE_SIDED,
  type OneSided,
  priorRatios,
} from '../../domain/estimate/learned-ratios.ts'

/** Finished jobs' actual / estimated hours, of jobs about which nothing else is known. */
export interface RatioHistory {
  /** Of the type that is estimated, in finish order. */
  readonly own: readonly number[]
  /** Of other types, one list each, in any order. */
  readonly others: readonly (readonly number[])[]
}

export interface RatioBand {
  readonly method: BandMethod
  /** Multiples of the estimate. */
  readonly ratios: OneSided
  /** Finished jobs of the type, and of others where the figures go by them too. */
  readonly rests: { readonly own: number; readonly others: number }
  /** What stood before the type's own jobs, as multiples; null where they alone decide. */
  readonly prior: OneSided | null
}

/**
 * What repairs' bands are learned by, on ratios alone: published values and files of other people's jobs have nothing else.
 * Ratios that are not above 0 and finite are left out.
 */
export function ratioBand({ own, others }: RatioHistory): RatioBand {
  const learned = learnRatios(logsOf(own), others.map(logsOf))
  const [p50, p80, p90] = logRatiosAt(learned, ONE_SIDED).map(Math.exp) as [number, number, number]
  return {
    method: learned.method,
    ratios: { p50, p80, p90 },
    rests: learned.rests,
    prior: learned.method === 'order statistic' ? null : priorRatios(learned),
  }
}

const logsOf = (ratios: readonly number[]): readonly number[] =>
  ratios.filter((ratio) => ratio > 0 && Number.isFinite(ratio)).map(Math.log)
