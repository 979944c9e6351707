/*
 * Figures: npm run bench -- NAME [OPTIONS] [--json]. With --json the last line of standard output is one JSON object.
 */
import process from 'node:process'

type Bench = (args: readonly string[]) => object | Promise<object>

/** Each takes its options and answers its figures; only the one that is asked for is loaded. */
const benches: Readonly<Record<string, () => Promise<Bench>>> = {
  carbag: async () => (await import('./carbag.ts')).benchCarBag,
  carfile: async () => (await import('./carfile.ts')).benchCarFile,
  coverage: async () => (await import('./coverage.ts')).benchCoverage,
  devices: async () => (await import('./devices.ts')).benchDevices,
  copies: async () => (await import('./copies.ts')).benchCopies,
  forecast: async () => (await import('./forecast.ts')).benchForecast,
  photos: async () => (await import('./photos.ts')).benchPhotos,
  plan: async () => (await import('./plan.ts')).benchPlan,
  records: async () => (await import('./records.ts')).benchRecords,
  reports: async () => (await import('./reports.ts')).benchReports,
  screens: async () => (await import('./screens.ts')).benchScreens,
  variance: async () => (await import('./variance.ts')).benchVariance,
  workshop: async () => (await import('./workshop.ts')).benchWorkshop,
}

const [name = '', ...args] = process.argv.slice(2)
const bench = Object.hasOwn(benches, name) ? benches[name] : undefined
if (bench === undefined) {
  console.error(`There is no bench '${name}'. Benches: ${Object.keys(benches).join(', ')}.`)
  process.exitCode = 2
} else {
  try {
    const run = await bench()
    const figures = await run(args.filter((arg) => arg !== '--json'))
    if (args.includes('--json')) console.log(JSON.stringify(figures))
    else for (const [key, value] of Object.entries(figures)) console.log(`${key}: ${JSON.stringify(value)}`)
  } catch (error) {
    console.error(error instanceof Error ? error.message : error)
    process.exitCode = 1
  }
}
