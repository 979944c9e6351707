/*
 * Figures: npm run bench -- NAME [OPTIONS] [--json]. With --json the last line of standard output is one JSON object.
 */
import process from 'node:process'
import { benchCarBag } from './carbag.ts'
import { benchCarFile } from './carfile.ts'
import { benchForecast } from './forecast.ts'
import { benchPlan } from './plan.ts'
import { benchReports } from './reports.ts'
import { benchVariance } from './variance.ts'
import { benchWorkshop } from './workshop.ts'

/** Each takes its options and answers its figures. */
const benches: Readonly<Record<string, (args: readonly string[]) => object | Promise<object>>> = {
  carbag: benchCarBag,
  carfile: benchCarFile,
  forecast: benchForecast,
  plan: benchPlan,
  reports: benchReports,
  variance: benchVariance,
  workshop: benchWorkshop,
}

const [name = '', ...args] = process.argv.slice(2)
const bench = Object.hasOwn(benches, name) ? benches[name] : undefined
if (bench === undefined) {
  console.error(`There is no bench '${name}'. Benches: ${Object.keys(benches).join(', ')}.`)
  process.exitCode = 2
} else {
  try {
    const figures = await bench(args.filter((arg) => arg !== '--json'))
    if (args.includes('--json')) console.log(JSON.stringify(figures))
    else for (const [key, value] of Object.entries(figures)) console.log(`${key}: ${JSON.stringify(value)}`)
  } catch (error) {
    console.error(error instanceof Error ? error.message : error)
    process.exitCode = 1
  }
}
