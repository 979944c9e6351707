import type { CarState, RepairState, VisitState } from '../car.ts'
import { GATES } from '../gates.ts'
import type { CarId, RepairId } from '../ids.ts'
import type { WorkshopState } from '../workshop.ts'

/**
 * What leads a new workshop to its first signed gate and clock, in the order in which it is done. The gate first: it is
 * that of a shell that stands open already, and hot work that was clocked would hold it until its watch is over.
 */
export const FIRST_STEPS = ['people', 'bays', 'car', 'repair', 'agreed', 'gate', 'clock'] as const
export type FirstStep = (typeof FIRST_STEPS)[number]

export interface FirstStepsView {
  readonly done: readonly FirstStep[]
  /** The first step that is not done. */
  readonly next: FirstStep
  /** The car and the repair that have come furthest, where the later steps are done. */
  readonly carId: CarId | null
  readonly repairId: RepairId | null
  /** Hours are agreed to, but no visit with such hours is in work. */
  readonly waitsForStatus: boolean
}

interface FirstStepsInput {
  readonly workshop: WorkshopState
  /** Cars that do not rest. */
  readonly cars: readonly CarState[]
  /** A workshop that has delivered cars has long made its first steps. */
  readonly hasDelivered: boolean
}

/**
 * Told from what stands in the workshop, so that a step is done wherever and in whatever order it was done, and is open
 * again when what it rested on is voided. Null before the workshop is set up and once all are done.
 */
export function firstStepsView({ workshop, cars, hasDelivered }: FirstStepsInput): FirstStepsView | null {
  if (!workshop.setUp || hasDelivered) return null
  const car = furthest(cars)
  const repair = car && furthestRepair(car)
  const done = FIRST_STEPS.filter((step) => isDone[step]({ workshop, cars }))
  const next = FIRST_STEPS.find((step) => !done.includes(step))
  if (next === undefined) return null
  return {
    done,
    next,
    carId: car?.id ?? null,
    repairId: repair?.id ?? null,
    waitsForStatus: !done.includes('agreed') && cars.some(hasAgreedHours),
  }
}

type Asked = Pick<FirstStepsInput, 'workshop' | 'cars'>

const isDone: { readonly [S in FirstStep]: (asked: Asked) => boolean } = {
  // Who works alone has nobody to add, and has signed a gate sooner or later.
  people: ({ workshop, cars }) =>
    [...workshop.people.values()].filter(({ active }) => active).length > 1 || cars.some(hasSignedGate),
  bays: ({ workshop }) => [...workshop.bays.values()].some(({ active }) => active),
  car: ({ cars }) => cars.length > 0,
  repair: ({ cars }) => cars.some((car) => repairsOf(car).length > 0),
  agreed: ({ cars }) => cars.some(isAgreed),
  gate: ({ cars }) => cars.some(hasSignedGate),
  clock: ({ cars }) => cars.some(({ entries }) => entries.size > 0),
}

const repairsOf = (car: CarState): readonly RepairState[] =>
  [...car.repairs.values()].filter(({ retired }) => retired === null)

const visitOf = ({ currentVisit, visits }: CarState): VisitState | undefined =>
  currentVisit === null ? undefined : visits.get(currentVisit)

/** In work, with hours on a repair that their payer has agreed to: what stands before that holds every gate. */
const isAgreed = (car: CarState): boolean =>
  hasAgreedHours(car) && ['in work', 'finished', 'delivered'].includes(visitOf(car)?.status ?? '')

const hasAgreedHours = (car: CarState): boolean =>
  [...(visitOf(car)?.lines.values() ?? [])].some(
    (line) => line.target.kind === 'gate' && line.accepted !== null,
  )

/** A gate that was passed, with a photo that serves it. */
const hasSignedGate = (car: CarState): boolean =>
  repairsOf(car).some(({ id, gates }) =>
    GATES.some((gate) => {
      const { done } = gates[gate]
      return (
        done?.kind === 'passed' &&
        [...car.attachments.values()].some(({ serves }) =>
          serves.some((each) => each.what === 'gate' && each.repairId === id && each.gate === gate),
        )
      )
    }),
  )

const furthest = (cars: readonly CarState[]): CarState | undefined =>
  cars.find(isAgreed) ?? cars.find((car) => repairsOf(car).length > 0) ?? cars[0]

/** One that is clocked on already, else the first. */
function furthestRepair(car: CarState): RepairState | undefined {
  const repairs = repairsOf(car)
  const clocked = new Set(
    [...car.entries.values()].flatMap(({ on }) =>
      on.kind === 'work'
        ? on.targets.flatMap((target) => (target.kind === 'gate' ? [target.repairId] : []))
        : [],
    ),
  )
  return repairs.find(({ id }) => clocked.has(id)) ?? repairs[0]
}
