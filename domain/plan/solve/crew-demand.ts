import type { Compiled } from './compile.ts'
import type { WorkingTime } from './working-time.ts'

/** What work asks of people. */
export interface CrewDemand {
  readonly people: number
  readonly work: number
  readonly watch: number
  /** In the order in which they are taken where they are ready at the same time. */
  readonly able: Int32Array
  readonly named: Int32Array
  /** The same as bits, and who has the work in the plan in force. */
  readonly ableBits: Int32Array
  readonly inForceBits: Int32Array
  /** When anybody of those who are able works: no crew is done sooner than that lets it. */
  readonly anybody: WorkingTime
  /** By person, of those who are able: when they work, less the fire watch, and their place in `able`. */
  readonly hours: readonly (WorkingTime | undefined)[]
  readonly turn: readonly (number | undefined)[]
}

type Able = Omit<CrewDemand, 'people' | 'work' | 'watch' | 'named'>

/** Shared by nearly all, so that in a large workshop they take no memory each. */
const NOBODY = new Int32Array(0)

/**
 * By activity; null for work that needs nobody. Of people who are ready at the same time the first is taken: whoever has
 * the work in the plan in force, then those who can do less, so that the others stay free.
 */
export const crewDemands = (compiled: Compiled): readonly (CrewDemand | null)[] => {
  const known = new Map<string, Able>()
  return compiled.problem.activities.map(({ crew, inForce, work, watch }) => {
    if (crew === null) return null
    const holders = inForce?.crew ?? []
    const key = `${watch}:${crew.able.join()}:${holders.join()}`
    const able = known.get(key) ?? whoIsAble(compiled, crew.able, holders, watch)
    known.set(key, able)
    return {
      ...able,
      people: crew.people,
      work,
      watch,
      named: crew.named.length === 0 ? NOBODY : Int32Array.from(crew.named),
    }
  })
}

/** What moving a shell asks of people. */
export const moveDemand = (compiled: Compiled): CrewDemand => {
  const { people, work, able } = compiled.problem.move
  return { ...whoIsAble(compiled, able, [], 0), people, work, watch: 0, named: NOBODY }
}

const whoIsAble = (
  { bits, times }: Compiled,
  people: readonly number[],
  holders: readonly number[],
  watch: number,
): Able => {
  const rank = (person: number): number => (holders.includes(person) ? -1 : (bits.bitOf[person] as number))
  const able = people.toSorted((a, b) => rank(a) - rank(b) || a - b)
  const hours: WorkingTime[] = []
  const turn: number[] = []
  able.forEach((person, at) => {
    hours[person] = times.of(person, watch)
    turn[person] = at
  })
  return {
    able: Int32Array.from(able),
    ableBits: bits.maskOf(able),
    inForceBits: bits.maskOf(holders),
    anybody: times.ofAny(able, watch),
    hours,
    turn,
  }
}

/** Which of two is taken where they are ready at the same time. */
export const isTakenBefore = ({ turn }: CrewDemand, person: number, other: number): boolean =>
  (turn[person] as number) < (turn[other] as number)

export const isNamed = ({ named }: CrewDemand, person: number): boolean => {
  for (let at = 0; at < named.length; at += 1) if (named[at] === person) return true
  return false
}

/** Work of no length is a signature: of those named, and of who is able first. */
export const signatories = (demand: CrewDemand, chosen: Int32Array): void => {
  let count = 0
  for (const person of demand.named) chosen[count++] = person
  for (let at = 0; count < demand.people; at += 1) {
    const person = demand.able[at] as number
    if (!isNamed(demand, person)) chosen[count++] = person
  }
}
