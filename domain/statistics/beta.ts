/** A beta distribution on 0 to 1; both parameters above 0. */
export interface BetaShape {
  readonly alpha: number
  readonly beta: number
}

/**
 * P(X <= x), the regularised incomplete beta function: x^a (1-x)^b / (a B(a,b)) times the continued fraction of Abramowitz
 * & Stegun 26.5.8, which converges fast below the mean; above it the other tail is reckoned.
 */
export function betaCdf(x: number, shape: BetaShape): number {
  if (x <= 0) return 0
  if (x >= 1) return 1
  const { alpha, beta } = shape
  if (x > (alpha + 1) / (alpha + beta + 2)) return 1 - lowerTail(1 - x, { alpha: beta, beta: alpha })
  return lowerTail(x, shape)
}

/** The x that is not exceeded with this probability: bisection that takes Newton's step where it stays inside. To 1e-12. */
export function betaQuantile(probability: number, shape: BetaShape): number {
  if (probability <= 0) return 0
  if (probability >= 1) return 1
  const logScale = logBeta(shape)
  let low = 0
  let high = 1
  let x = shape.alpha / (shape.alpha + shape.beta)
  while (high - low > 1e-13) {
    const excess = betaCdf(x, shape) - probability
    if (excess > 0) high = x
    else low = x
    const next = x - excess / Math.exp(logKernel(x, shape) - logScale - Math.log(x * (1 - x)))
    if (Math.abs(next - x) < 1e-14) return next
    x = next > low && next < high ? next : (low + high) / 2
  }
  return x
}

const lowerTail = (x: number, shape: BetaShape): number =>
  (Math.exp(logKernel(x, shape) - logBeta(shape)) * continuedFraction(x, shape)) / shape.alpha

const logKernel = (x: number, { alpha, beta }: BetaShape): number =>
  alpha * Math.log(x) + beta * Math.log1p(-x)

/** Evaluated by Lentz's method; the terms alternate between two forms. */
function continuedFraction(x: number, { alpha, beta }: BetaShape): number {
  let numerator = 1
  let denominator = 1 / (1 - ((alpha + beta) * x) / (alpha + 1))
  let value = denominator
  for (let m = 1; m < MOST_TERMS; m += 1) {
    const even = (m * (beta - m) * x) / ((alpha + 2 * m - 1) * (alpha + 2 * m))
    denominator = 1 / (1 + even * denominator)
    numerator = 1 + even / numerator
    value *= denominator * numerator
    const odd = (-(alpha + m) * (alpha + beta + m) * x) / ((alpha + 2 * m) * (alpha + 2 * m + 1))
    denominator = 1 / (1 + odd * denominator)
    numerator = 1 + odd / numerator
    value *= denominator * numerator
    if (Math.abs(denominator * numerator - 1) < 1e-15) break
  }
  return value
}

/** Far more than shapes up to some thousands need. */
const MOST_TERMS = 500

const logBeta = ({ alpha, beta }: BetaShape): number =>
  logGamma(alpha) + logGamma(beta) - logGamma(alpha + beta)

/** Stirling's series with four corrections (Abramowitz & Stegun 6.1.41), shifted upwards to where it holds to 1e-15. */
function logGamma(x: number): number {
  let shift = 0
  let z = x
  for (; z < STIRLING_FROM; z += 1) shift += Math.log(z)
  const inverse = 1 / (z * z)
  const corrections = (1 / 12 - inverse * (1 / 360 - inverse * (1 / 1260 - inverse / 1680))) / z
  return (z - 0.5) * Math.log(z) - z + 0.5 * Math.log(2 * Math.PI) + corrections - shift
}

const STIRLING_FROM = 20
