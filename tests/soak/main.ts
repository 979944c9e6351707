/*
 * The long runs, of which `npm test` holds a seeded slice: npm run soak -- NAME [SEED]. Ends with exit code 0 only when
 * all was well.
 */
import process from 'node:process'
import { runDevices } from './devices.ts'
import { killsAsked, runKills } from './kills.ts'

/** Each answers whether all was well. */
const runs: Readonly<Record<string, (seed: number) => Promise<boolean>>> = {
  devices: async (seed) => {
    console.log(`10 devices for two minutes with seed ${seed}`)
    const run = { devices: 10, browsers: 2, seconds: 120, seed }
    const figures = await runDevices(run, (line) => console.log(line))
    console.log(JSON.stringify(figures))
    return figures.problems.length === 0
  },
  kills: async (seed) => {
    const kills = killsAsked(200)
    console.log(`${kills} kills with seed ${seed}`)
    const figures = await runKills(kills, seed, (line) => console.log(line))
    console.log(JSON.stringify(figures))
    return figures.problems.length === 0
  },
}

const [name = '', seedText = String(Date.now() % 1_000_000)] = process.argv.slice(2)
const run = Object.hasOwn(runs, name) ? runs[name] : undefined
const seed = Number(seedText)
if (run && Number.isInteger(seed)) process.exitCode = (await run(seed)) ? 0 : 1
else {
  console.error(
    run
      ? `The seed '${seedText}' is not a whole number.`
      : `There is no long run '${name}'. Runs: ${Object.keys(runs).join(', ')}.`,
  )
  process.exitCode = 2
}
