/**
 * P(Z <= z) of the standard normal, to about 1e-15 absolute: the series of Marsaglia, Evaluating the Normal Distribution,
 * Journal of Statistical Software 11 (2004).
 */
export function normalCdf(z: number): number {
  if (z < -FAR) return 0
  if (z > FAR) return 1
  let sum = z
  let term = z
  for (let odd = 3, before = 0; sum !== before; odd += 2) {
    before = sum
    term *= (z * z) / odd
    sum += term
  }
  return 0.5 + sum * normalDensity(z)
}

/** Beyond it the series is slow and the tails are below 1e-15. */
const FAR = 8

const normalDensity = (z: number): number => Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI)

/**
 * The z that is not exceeded with this probability, above 0 and below 1: Newton's steps on {@link normalCdf}. From the
 * middle outwards they never overshoot, because the distribution bends towards its tails; the first one back is rounding.
 */
export function normalQuantile(probability: number): number {
  const side = probability < 0.5 ? -1 : 1
  let far = 0
  for (;;) {
    const further = far + (side * (probability - normalCdf(side * far))) / normalDensity(far)
    if (!(further > far)) return side * far
    far = further
  }
}

/**
 * A stratified sample: one value from each of `count` equally likely strata of the standard normal, the middle one of
 * each, in order. Ends near +-3.3 for a thousand.
 */
export function normalScores(count: number): Float64Array {
  return Float64Array.from({ length: count }, (_, index) => normalQuantile((index + 0.5) / count))
}
