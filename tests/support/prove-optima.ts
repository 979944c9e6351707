import { writeFileSync } from 'node:fs'
import { exactPlan } from './exact-plan.ts'
import { digestOf, OPTIMA_COUNT, OPTIMA_FILE, type Optimum, smallWorkshop } from './optima.ts'

/**
 * Proves the best plans of the random small workshops and records them for the tests. Minutes of work, and only to be
 * repeated when the workshops or the rules of the problem have changed: `node tests/support/prove-optima.ts`.
 */
const lines = Array.from({ length: OPTIMA_COUNT }, (_, index) => {
  const seed = index + 1
  const problem = smallWorkshop(seed)
  const found = exactPlan(problem)
  if (found === 'unproven')
    throw new Error(`The best plan of workshop ${seed} is not proven: allow more nodes.`)
  const line: Optimum = {
    seed,
    problem: digestOf(problem),
    best: found === null ? null : [...found.figures],
  }
  process.stdout.write(`${JSON.stringify(line)}\n`)
  return JSON.stringify(line)
})
writeFileSync(OPTIMA_FILE, `[\n${lines.join(',\n')}\n]\n`)
