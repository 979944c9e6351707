import type { Compiled } from './compile.ts'

/** What work asks of people. Rows are given as one array with bounds, so that nothing is copied in the inner loop. */
export interface CrewDemand {
  readonly people: number
  readonly work: number
  readonly watch: number
  readonly able: Int32Array
  readonly ableFrom: number
  readonly ableTo: number
  readonly named: Int32Array
  readonly namedFrom: number
  readonly namedTo: number
}

/**
 * By activity; null for work that needs nobody. Of people who are ready at the same time the first is taken: whoever has
 * the work in the plan in force, then those who can do less, so that the others stay free.
 */
export const crewDemands = ({ problem, watch, work, named }: Compiled): readonly (CrewDemand | null)[] => {
  const uses = new Map<number, number>()
  for (const { crew } of problem.activities)
    for (const person of crew?.able ?? []) uses.set(person, (uses.get(person) ?? 0) + 1)
  return problem.activities.map(({ crew, inForce }, index) => {
    if (crew === null) return null
    const rank = (person: number): number =>
      inForce?.crew.includes(person) === true ? -1 : (uses.get(person) ?? 0)
    const able = crew.able.toSorted((a, b) => rank(a) - rank(b) || a - b)
    return {
      people: crew.people,
      work: work[index] as number,
      watch: watch[index] as number,
      able: Int32Array.from(able),
      ableFrom: 0,
      ableTo: able.length,
      named: named.items,
      namedFrom: named.offsets[index] as number,
      namedTo: named.offsets[index + 1] as number,
    }
  })
}

export const isNamed = ({ named, namedFrom, namedTo }: CrewDemand, person: number): boolean => {
  for (let at = namedFrom; at < namedTo; at += 1) if (named[at] === person) return true
  return false
}

/** Work of no length is a signature: of those named, and of who is able first. */
export const signatories = (demand: CrewDemand, chosen: Int32Array): void => {
  let count = 0
  for (let at = demand.namedFrom; at < demand.namedTo; at += 1) chosen[count++] = demand.named[at] as number
  for (let at = demand.ableFrom; count < demand.people; at += 1) {
    const person = demand.able[at] as number
    if (!isNamed(demand, person)) chosen[count++] = person
  }
}

/** What moving a shell asks of people. */
export const moveDemand = (move: Compiled['problem']['move']): CrewDemand => ({
  people: move.people,
  work: move.work,
  watch: 0,
  able: Int32Array.from(move.able),
  ableFrom: 0,
  ableTo: move.able.length,
  named: new Int32Array(0),
  namedFrom: 0,
  namedTo: 0,
})
