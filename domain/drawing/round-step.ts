/** 1, 2 or 5 times a power of ten, the first that is at least the least; above 0. */
export function roundStep(least: number): number {
  const power = 10 ** Math.floor(Math.log10(least))
  return ([1, 2, 5].find((times) => times * power >= least) ?? 10) * power
}
