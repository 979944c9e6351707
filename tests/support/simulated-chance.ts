import { type Grade, GRADES } from '../../domain/facts/shapes.ts'
import { createRandom } from './random.ts'

/** What a simulation draws, the same for the same seed. */
export interface Chance {
  readonly next: () => number
  readonly below: (bound: number) => number
  readonly normal: () => number
  readonly gammaOfTwo: () => number
  readonly grade: (shares: Readonly<Record<Grade, number>>) => Grade
}

export function createChance(seed: number): Chance {
  // Small seeds lie close together; the odd, large factor sets their streams apart.
  const { next } = createRandom(Math.imul(seed, 0x9e37_79b1))
  const exponential = (): number => -Math.log(1 - next())
  return {
    next,
    below: (bound) => Math.floor(next() * bound),
    // Box and Muller.
    normal: () => Math.sqrt(2 * exponential()) * Math.cos(2 * Math.PI * next()),
    gammaOfTwo: () => exponential() + exponential(),
    grade: (shares) => gradeAt(shares, next()),
  }
}

/** The grade at a place, 0 to 1, of the line that the shares make from best to worst. */
export function gradeAt(shares: Readonly<Record<Grade, number>>, place: number): Grade {
  let left = place * GRADES.reduce((sum, grade) => sum + shares[grade], 0)
  return GRADES.find((grade) => (left -= shares[grade]) < 0) ?? 'gone'
}
