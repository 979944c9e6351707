import { nameList } from '../../views/work-words.ts'
import type { PlanFault } from '../plan.ts'
import type { DraftWork } from './draft-work.ts'

/** What is wrong with one piece of work; told together with others of the car that it is wrong with too. */
export interface NamedFault {
  readonly code: PlanFault['code']
  readonly work: DraftWork
  /** What it is about: faults of one car with the same code and subject are one. */
  readonly subject: string
  /** Said after the names of one or several: 'a bay of the kind 'oven' is needed, and there is none'. */
  readonly words: string
  readonly next: string
}

export const namedFault = (
  work: DraftWork,
  code: PlanFault['code'],
  subject: string,
  words: string,
  next: string,
): NamedFault => ({ code, work, subject, words, next })

/** One fault a car, code and subject, in the order in which they were found. */
export function tellFaults(faults: readonly NamedFault[]): readonly PlanFault[] {
  const together = Map.groupBy(faults, ({ work, code, subject }) => `${work.car.id} ${code} ${subject}`)
  return [...together.values()].flatMap((same) => {
    const [first] = same
    if (first === undefined) return []
    const { code, work, words, next } = first
    const names = [...new Set(same.map(({ work: { name } }) => name))]
    return [{ code, carId: work.car.id, words: `${nameList(names, NAMED)}: ${words}.`, next }]
  })
}

/** More names than this say no more. */
const NAMED = 3
