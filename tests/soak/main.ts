/*
 * The long runs, of which `npm test` holds a seeded slice: npm run soak -- NAME [SEED] [OPTIONS]. Ends with exit code 0 only when
 * all was well.
 */
import process from 'node:process'
import { parseArgs } from 'node:util'

/** Each answers whether all was well; only the one that is asked for is loaded, as that of devices makes itself a page's globals. */
const runs: Readonly<Record<string, (seed: number, args: readonly string[]) => Promise<boolean>>> = {
  devices: async (seed) => {
    const { runDevices } = await import('./devices.ts')
    console.log(`10 devices for two minutes with seed ${seed}`)
    const run = { devices: 10, browsers: 2, seconds: 120, seed }
    const figures = await runDevices(run, (line) => console.log(line))
    console.log(JSON.stringify(figures))
    return figures.problems.length === 0
  },
  endurance: async (seed, args) => {
    const { runEndurance } = await import('./endurance.ts')
    const { values } = parseArgs({ args: [...args], options: { minutes: { type: 'string', default: '60' } } })
    const minutes = Number(values.minutes)
    console.log(`${minutes} minutes of a workshop at 60 times its speed with seed ${seed}`)
    const figures = await runEndurance(minutes, seed)
    console.log(JSON.stringify(figures))
    return figures.problems.length === 0
  },
  fuzz: async (seed, [cases = '100000']) => {
    const { runFuzz } = await import('./fuzz.ts')
    console.log(`${cases} cases with seed ${seed}`)
    const figures = await runFuzz(Number(cases), seed, (line) => console.log(line))
    for (const problem of figures.problems) console.log(`\n${problem}`)
    console.log(JSON.stringify({ ...figures, problems: figures.problems.length }))
    return figures.cases === Number(cases) && figures.problems.length === 0
  },
  kills: async (seed) => {
    const { killsAsked, runKills } = await import('./kills.ts')
    const { runStoryKills } = await import('./story-kills.ts')
    const kills = killsAsked(500)
    console.log(`${kills} kills with seed ${seed}`)
    const ofStory = Math.round(kills * STORY_SHARE)
    const story = await runStoryKills(ofStory, seed, (line) => console.log(line))
    console.log(JSON.stringify(story))
    const figures = await runKills(kills - ofStory, seed, (line) => console.log(line))
    console.log(JSON.stringify(figures))
    return [...story.problems, ...figures.problems].length === 0
  },
  slow: async () => {
    const { runSlow } = await import('./slow.ts')
    const run = { attempts: 10_000, wave: 400, sources: 600, bound: '127.0.0.8' }
    const figures = await runSlow(run, (line) => console.log(line))
    console.log(JSON.stringify(figures))
    return figures.problems.length === 0
  },
}

/** Of the kills: of a process that records every kind of command. The others are of the whole host. */
const STORY_SHARE = 0.3

const [name = '', ...rest] = process.argv.slice(2)
const isSeed = rest[0] !== undefined && !rest[0].startsWith('--')
const seedText = (isSeed ? rest[0] : undefined) ?? String(Date.now() % 1_000_000)
const args = isSeed ? rest.slice(1) : rest
const run = Object.hasOwn(runs, name) ? runs[name] : undefined
const seed = Number(seedText)
if (run && Number.isInteger(seed)) process.exitCode = (await run(seed, args)) ? 0 : 1
else {
  console.error(
    run
      ? `The seed '${seedText}' is not a whole number.`
      : `There is no long run '${name}'. Runs: ${Object.keys(runs).join(', ')}.`,
  )
  process.exitCode = 2
}
