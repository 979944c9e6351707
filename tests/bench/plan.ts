import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { basename, join, resolve } from 'node:path'
import { parseArgs } from 'node:util'
import { criticalPath } from '../../domain/plan/critical-path.ts'
import { solve } from '../../domain/plan/solve/solve.ts'
import { projectToProblem, readSm } from '../support/psplib.ts'

export interface PlanFigures {
  /** The folder's name. */
  readonly set: string
  readonly instances: number
  /** At most so many were made for each instance. */
  readonly schedules: number
  /** Over the proved optimum where every instance has one, else over the critical path; % of it. */
  readonly averageDeviationPercent: number
  readonly worstDeviationPercent: number
  readonly schedulesPerSecond: number
}

interface BestKnown {
  readonly end: number
  readonly isProved: boolean
}

interface Planned {
  readonly name: string
  readonly end: number
  readonly criticalPath: number
  readonly made: number
}

/** Plans every project of a folder of PSPLIB files and compares the ends with the best known or the critical path. */
export function benchPlan(args: readonly string[]): PlanFigures {
  const { folder, schedules, seed } = readOptions(args)
  const names = projectNames(folder)
  const bestKnown = readBestKnown(join(folder, 'best_known.csv'))
  const begun = performance.now()
  const planned = names.map((name) => planProject(folder, name, schedules, seed))
  const seconds = (performance.now() - begun) / 1000
  const optima = provedOptima(names, bestKnown)
  const deviations = planned.map(
    (each) => 100 * (each.end / (optima.get(each.name) ?? each.criticalPath) - 1),
  )
  return {
    set: basename(folder),
    instances: names.length,
    schedules,
    averageDeviationPercent: round(deviations.reduce((sum, each) => sum + each, 0) / names.length, 4),
    worstDeviationPercent: round(Math.max(...deviations), 4),
    schedulesPerSecond: round(planned.reduce((sum, each) => sum + each.made, 0) / seconds, 0),
  }
}

function readOptions(args: readonly string[]): { folder: string; schedules: number; seed: number } {
  const usage = 'Use: npm run bench -- plan --psplib DIR --schedules N [--seed S] [--json]'
  const { values } = parseArgs({
    args: [...args],
    options: {
      psplib: { type: 'string' },
      schedules: { type: 'string' },
      seed: { type: 'string', default: '1' },
    },
  })
  if (values.psplib === undefined) throw new Error(`Say which folder of .sm files to plan. ${usage}`)
  const schedules = Number(values.schedules)
  if (!Number.isInteger(schedules) || schedules < 1)
    throw new Error(`Give the schedules per instance as a whole number from 1 on. ${usage}`)
  const seed = Number(values.seed)
  if (!Number.isInteger(seed)) throw new Error(`Give the seed as a whole number. ${usage}`)
  return { folder: resolve(values.psplib), schedules, seed }
}

function projectNames(folder: string): readonly string[] {
  if (!existsSync(folder)) throw new Error(`There is no folder ${folder}. Give a folder of PSPLIB projects.`)
  const names = readdirSync(folder).filter((name) => name.endsWith('.sm'))
  if (names.length === 0)
    throw new Error(`There are no .sm files in ${folder}. Give a folder of PSPLIB projects.`)
  return names.toSorted((a, b) => a.localeCompare(b, 'en', { numeric: true }))
}

/** Columns set,instance,cpm_lb,lb,ub,proved_optimal; by the instance's file name. */
function readBestKnown(path: string): ReadonlyMap<string, BestKnown> {
  if (!existsSync(path))
    throw new Error(`${path} is not there. Put the best known values beside the projects.`)
  const [heading = '', ...lines] = readFileSync(path, 'utf8').trim().split(/\r?\n/)
  const columns = heading.split(',')
  const [instance, ub, proved] = ['instance', 'ub', 'proved_optimal'].map((name) => columns.indexOf(name))
  if (
    instance === undefined ||
    instance < 0 ||
    ub === undefined ||
    ub < 0 ||
    proved === undefined ||
    proved < 0
  )
    throw new Error(`${path} must have the columns instance, ub and proved_optimal in its first line.`)
  return new Map(
    lines.map((line, index) => {
      const cells = line.split(',')
      const end = Number(cells[ub])
      if (!(end > 0))
        throw new Error(`${path}, line ${index + 2}: '${cells[ub] ?? ''}' is no end of a project.`)
      return [cells[instance] ?? '', { end, isProved: cells[proved] === '1' }]
    }),
  )
}

/** Empty unless all are proved. */
function provedOptima(
  names: readonly string[],
  bestKnown: ReadonlyMap<string, BestKnown>,
): ReadonlyMap<string, number> {
  if (!names.every((name) => bestKnown.get(name)?.isProved === true)) return new Map()
  return new Map(names.map((name) => [name, bestKnown.get(name)?.end ?? 0]))
}

function planProject(folder: string, name: string, schedules: number, seed: number): Planned {
  const problem = projectToProblem(readSm(readFileSync(join(folder, name), 'utf8'), name))
  const { score, schedules: made } = solve(problem, { seed, schedules })
  return { name, end: score.end, criticalPath: criticalPath(problem.activities, problem.links).end, made }
}

const round = (value: number, digits: number): number => Number(value.toFixed(digits))
