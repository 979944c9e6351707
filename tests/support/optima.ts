import { createHash } from 'node:crypto'
import { z } from 'zod'
import type { Problem } from '../../domain/plan/problem.ts'
import { randomWorkshopProblem, SMALL } from './random-workshop-problem.ts'

/** Random small workshops whose best plan has been proven, by seed. */
export const OPTIMA_FILE = new URL('../fixtures/plan-optima.json', import.meta.url)
export const OPTIMA_COUNT = 200

/** `best` is null where not all work can be placed by the horizon. */
export const optimaSchema = z.array(
  z.strictObject({
    seed: z.int(),
    /** Digest of the problem, so that a record of other workshops is not taken for one of these. */
    problem: z.string(),
    best: z.tuple([z.int(), z.int(), z.int(), z.int()]).nullable(),
  }),
)
export type Optimum = z.infer<typeof optimaSchema>[number]

export const smallWorkshop = (seed: number): Problem => randomWorkshopProblem(seed, SMALL)

export const digestOf = (problem: Problem): string =>
  createHash('sha256').update(JSON.stringify(problem)).digest('hex').slice(0, 16)
