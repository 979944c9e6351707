import { betaQuantile, type BetaShape } from './beta.ts'

/** A share that is not known exactly: its mean and the ends of its central credible interval, 0 to 1. */
export interface Proportion {
  readonly mean: number
  readonly low: number
  readonly high: number
}

/** Every share is as likely as every other. */
const UNIFORM: BetaShape = { alpha: 1, beta: 1 }

/** Of credible intervals. */
const CONFIDENCE = 0.95

/** The share behind `hits` of `trials`: the posterior beta(a + k, b + n - k) (Gelman et al., Bayesian Data Analysis, ch. 2). */
export function proportionOf(hits: number, trials: number, prior: BetaShape = UNIFORM): Proportion {
  const alpha = prior.alpha + hits
  const beta = prior.beta + trials - hits
  const tail = (1 - CONFIDENCE) / 2
  return {
    mean: alpha / (alpha + beta),
    low: betaQuantile(tail, { alpha, beta }),
    high: betaQuantile(1 - tail, { alpha, beta }),
  }
}
