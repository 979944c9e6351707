/*
 * The long runs, of which `npm test` holds a seeded slice: npm run soak -- NAME. Ends with exit code 0 only when all was
 * well.
 */
import process from 'node:process'
import { runKills } from './kills.ts'

/** Each answers whether all was well. */
const runs: Readonly<Record<string, () => Promise<boolean>>> = {
  kills: async () => {
    const seed = Date.now() % 1_000_000
    console.log(`200 kills with seed ${seed}`)
    const figures = await runKills(200, seed, (line) => console.log(line))
    console.log(JSON.stringify(figures))
    return figures.problems.length === 0
  },
}

const name = process.argv[2] ?? ''
const run = Object.hasOwn(runs, name) ? runs[name] : undefined
if (run) process.exitCode = (await run()) ? 0 : 1
else {
  console.error(`There is no long run '${name}'. Runs: ${Object.keys(runs).join(', ')}.`)
  process.exitCode = 2
}
