import type { ThreePoint } from '../../domain/facts/shapes.ts'
import type { Link } from '../../domain/plan/problem.ts'

export interface Network {
  readonly points: readonly ThreePoint[]
  readonly links: readonly Link[]
}

/** 'A 4,5,12' or 'C 2,3,4: A,B', with what it follows. */
const network = (...lines: readonly string[]): Network => {
  const parts = lines.map((line) => {
    const [own = '', before = ''] = line.split(': ')
    const [name = '', points = ''] = own.split(' ')
    const [shortest = 0, likely = 0, longest = 0] = points.split(',').map(Number)
    return { name, points: { shortest, likely, longest }, before: before === '' ? [] : before.split(',') }
  })
  const names = parts.map(({ name }) => name)
  return {
    points: parts.map(({ points }) => points),
    links: parts.flatMap(({ before }, after) =>
      before.map((name) => ({ before: names.indexOf(name), after, lag: 0 })),
    ),
  }
}

/** Weeks. Anderson, Sweeney & Williams, An Introduction to Management Science, ch. 9: a vacuum cleaner without a cord. */
export const PORTA_VAC = network(
  'A 4,5,12',
  'B 1,1.5,5',
  'C 2,3,4: A',
  'D 3,4,11: A',
  'E 2,3,4: A',
  'F 1.5,2,2.5: C',
  'G 1.5,3,4.5: D',
  'H 2.5,3.5,7.5: B,E',
  'I 1.5,2,2.5: H',
  'J 1,2,3: F,G,I',
)

/** Weeks. Hillier & Lieberman, Introduction to Operations Research: a plant is built. Points and order from memory. */
export const RELIABLE_CONSTRUCTION = network(
  'A 1,2,3',
  'B 2,3.5,8: A',
  'C 6,9,18: B',
  'D 4,5.5,10: C',
  'E 1,4.5,5: C',
  'F 4,4,10: E',
  'G 5,6.5,11: D',
  'H 5,8,17: E,G',
  'I 3,7.5,9: C',
  'J 3,9,9: F,I',
  'K 4,4,4: J',
  'L 1,5.5,7: J',
  'M 1,2,3: H',
  'N 5,5.5,9: K,L',
)
