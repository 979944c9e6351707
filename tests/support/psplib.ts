import type { Activity, Problem } from '../../domain/plan/problem.ts'

/** A plain resource-constrained problem as the literature gives it. Activities count from 0, dummies included. */
export interface PlainProject {
  readonly durations: readonly number[]
  /** By activity, by resource. */
  readonly requests: readonly (readonly number[])[]
  readonly capacities: readonly number[]
  readonly successors: readonly (readonly number[])[]
}

/**
 * Reads a single-mode project in the format of PSPLIB (Kolisch & Sprecher 1996): sections under headings, jobs counted
 * from 1. Throws an error that names the file and the section when one is missing or does not hold together.
 */
export function readSm(text: string, name: string): PlainProject {
  const fail = (what: string): never => {
    throw new Error(`${name}: ${what}. Give a single-mode project file as PSPLIB has them.`)
  }
  const lines = text.split(/\r?\n/)
  const rowsUnder = (heading: string): readonly number[][] => {
    const at = lines.findIndex((line) => line.startsWith(heading))
    if (at < 0) return fail(`there is no section '${heading}'`)
    const end = lines.findIndex((line, index) => index > at && line.startsWith('****'))
    return lines.slice(at + 1, end < 0 ? lines.length : end).flatMap((line) => {
      const words = line.trim().split(/\s+/)
      return words.every((word) => /^\d+$/.test(word)) ? [words.map(Number)] : []
    })
  }
  const links = rowsUnder('PRECEDENCE RELATIONS')
  const needs = rowsUnder('REQUESTS/DURATIONS')
  const [capacities = fail('there is no line of capacities')] = rowsUnder('RESOURCEAVAILABILITIES')
  const size = links.length
  if (size === 0 || needs.length !== size)
    fail(`it has ${size} jobs with successors and ${needs.length} with durations`)
  links.forEach(([job, modes, count, ...next], index) => {
    if (job !== index + 1) fail(`the successors of job ${index + 1} are missing`)
    if (modes !== 1) fail(`job ${job} has ${modes} modes`)
    if (next.length !== count || next.some((other) => other < 1 || other > size))
      fail(`the successors of job ${job} do not fit their number or the number of jobs`)
  })
  needs.forEach((row, index) => {
    if (row[0] !== index + 1 || row.length !== 3 + capacities.length)
      fail(`the duration and requests of job ${index + 1} are missing or not complete`)
  })
  return {
    durations: needs.map((row) => row[2] as number),
    requests: needs.map((row) => row.slice(3)),
    capacities,
    successors: links.map((row) => row.slice(3).map((job) => job - 1)),
  }
}

/** The same project as the planner takes it: no people, cars or calendars. The horizon is enough for one after another. */
export function projectToProblem(project: PlainProject): Problem {
  return {
    horizon: project.durations.reduce((sum, ticks) => sum + ticks, 1),
    midnights: [0],
    calendars: [],
    people: [],
    bays: [],
    resources: project.capacities.map((capacity) => ({ capacity })),
    cars: [],
    activities: project.durations.map((work, index) =>
      plainActivity(work, project.requests[index] as number[], index),
    ),
    links: project.successors.flatMap((next, before) => next.map((after) => ({ before, after, lag: 0 }))),
    stands: [],
    apart: [],
    spans: [],
    move: { work: 0, people: 0, able: [] },
  }
}

const plainActivity = (work: number, requests: readonly number[], index: number): Activity => ({
  work,
  earliest: 0,
  latestStart: null,
  car: null,
  bayKind: null,
  crew: null,
  watch: 0,
  uses: requests.flatMap((amount, resource) => (amount > 0 ? [{ resource, amount }] : [])),
  tail: 0,
  repair: index,
  first: null,
  inForce: null,
})
