import { parseArgs } from 'node:util'
import {
  ANOTHER,
  AS_STATED,
  type Coverage,
  coverTaken,
  coverWorkshops,
  createCoverage,
  type Truth,
} from '../support/coverage.ts'

const USAGE = 'Use: npm run bench -- coverage [--workshops N] [--json]'

/** The tests judge by seeds from 0 on: these are others. */
const FIRST_SEED = 10_000

const TRUTHS: readonly (readonly [words: string, truth: Truth, perType: readonly number[]])[] = [
  ['as stated', AS_STATED, [0, 1, 3, 10]],
  ['another', ANOTHER, [0, 2, 6, 15, 30]],
]
const TAKEN = [6, 15, 30]

/** By truth and count of finished repairs of each type; each text is the percent at or under the 50, 80 and 90 % figures. */
export type CoverageFigures = Readonly<Record<string, Readonly<Record<string, string>>>>

/** How often the hours of invented repairs and cars stay at or under what the bands say of them. */
export function benchCoverage(args: readonly string[]): CoverageFigures {
  const seeds = seedsOf(args)
  const rows = TRUTHS.flatMap(([words, truth, counts]) =>
    counts.map((perType) => {
      const [repairs, cars] = [createCoverage(), createCoverage()]
      coverWorkshops(truth, { seeds, perType, repairs, cars })
      return [`${words}, ${perType}`, { ...said('repairs', repairs), ...said('cars', cars) }] as const
    }),
  )
  const taken = TAKEN.map((perType) => {
    const repairs = createCoverage()
    coverTaken({ seeds, perType, repairs })
    return [`taken as proposed, ${perType}`, said('repairs', repairs)] as const
  })
  return Object.fromEntries([...rows, ...taken])
}

function seedsOf(args: readonly string[]): readonly number[] {
  const { values } = parseArgs({
    args: [...args],
    options: { workshops: { type: 'string', default: '300' } },
  })
  const workshops = Number(values.workshops)
  if (!Number.isInteger(workshops) || workshops < 1)
    throw new Error(`Give the workshops as a whole number from 1 on. ${USAGE}`)
  return Array.from({ length: workshops }, (_, number) => FIRST_SEED + number)
}

const said = (what: string, coverage: Coverage): Readonly<Record<string, string>> =>
  Object.fromEntries(
    [...coverage.covered()].map(([stage, { p50, p80, p90 }]) => [
      `${what} ${stage}`,
      [p50, p80, p90].map((percent) => percent.toFixed(1)).join(' / '),
    ]),
  )
