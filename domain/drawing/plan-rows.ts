import type { Moment } from '../car.ts'
import type { BayId, CarId, PersonId } from '../ids.ts'
import type { Plan, PlannedCar, PlannedMove, PlannedStay, PlannedWork } from '../plan/plan.ts'
import { targetKey } from '../value/target.ts'
import type { PlanBayRow, PlanCarRow, PlanPersonRow, PlanView } from '../views/plan-view-shapes.ts'
import { bayWords } from '../text/bay-words.ts'

/** One thing drawn in a row of the plan. `key` is unique in its row's drawing and stays the same from plan to plan. */
export type PlanBlock = StayBlock | WorkBlock | CarBlock | MixedBlock | MoveBlock | FinishBlock

interface Stretch {
  readonly key: string
  readonly from: Moment
  readonly to: Moment
}

/** A car in a bay. */
export interface StayBlock extends Stretch {
  readonly kind: 'stay'
  readonly carId: CarId
  readonly stay: PlannedStay
}

/** One gate or task of one person. */
export interface WorkBlock extends Stretch {
  readonly kind: 'work'
  readonly carId: CarId
  readonly work: PlannedWork
}

/** Several gates and tasks of one car in a row, drawn as one where single ones are too small to be seen. */
export interface CarBlock extends Stretch {
  readonly kind: 'car'
  readonly carId: CarId
  readonly works: readonly PlannedWork[]
}

/** Work on several cars, each too short to be drawn by itself. */
export interface MixedBlock extends Stretch {
  readonly kind: 'mixed'
  readonly works: readonly PlannedWork[]
}

/** A person moves a shell. */
export interface MoveBlock extends Stretch {
  readonly kind: 'move'
  readonly carId: CarId
  readonly move: PlannedMove
}

/** What is promised for a car, and when it is finished with 50 % and with 80 %. */
export interface FinishBlock extends Stretch {
  readonly kind: 'finish'
  readonly carId: CarId
  readonly car: PlannedCar
  /** The end of the promised day. */
  readonly promisedBy: Moment | null
}

export type PlanRow = BayRow | FinishRow | PersonRow

export interface BayRow {
  readonly kind: 'bay'
  readonly key: string
  readonly bay: PlanBayRow
  readonly blocks: readonly StayBlock[]
}

export interface FinishRow {
  readonly kind: 'finish'
  readonly key: string
  readonly blocks: readonly FinishBlock[]
}

export interface PersonRow {
  readonly kind: 'person'
  readonly key: string
  readonly person: PlanPersonRow
  readonly blocks: readonly (WorkBlock | CarBlock | MixedBlock | MoveBlock)[]
}

/**
 * The rows of a plan from top to bottom: bays, what is promised, people; in each the blocks in order of time.
 *
 * @param dayEndOf the end of a local date, as an instant
 */
export function planRows(
  view: Pick<PlanView, 'bays' | 'people'>,
  plan: Plan,
  dayEndOf: (date: string) => Moment,
): readonly PlanRow[] {
  const stays = Map.groupBy(plan.stays, (stay) => stay.bayId)
  const work = byPerson(plan.work)
  const moves = byPerson(plan.moves)
  return [
    ...view.bays.map((bay): BayRow => bayRow(bay, stays.get(bay.bayId) ?? [])),
    {
      kind: 'finish',
      key: 'finish',
      blocks: plan.cars.flatMap((car) => finishBlock(car, dayEndOf)).toSorted(byTime),
    },
    ...view.people.map((person): PersonRow => {
      const { personId } = person
      const blocks = [
        ...(work.get(personId) ?? []).map((each) => workBlock(each, personId)),
        ...(moves.get(personId) ?? []).map((each) => moveBlock(each, personId)),
      ]
      return { kind: 'person', key: `person ${personId}`, person, blocks: blocks.toSorted(byTime) }
    }),
  ]
}

/** Names of things by their id, for what is written on a plan. */
export interface PlanNames {
  readonly car: (id: CarId) => string
  readonly row: (id: CarId) => PlanCarRow | undefined
  /** 'Spray booth', 'bay 3' */
  readonly bay: (id: BayId) => string
  readonly person: (id: PersonId) => string
  /** 'Sill, left: welded' */
  readonly work: (work: Pick<PlannedWork, 'carId' | 'target'>) => string
}

export function planNames(view: Pick<PlanView, 'bays' | 'people' | 'cars'>): PlanNames {
  const cars = new Map(view.cars.map((car) => [car.carId, car] as const))
  const bays = new Map(view.bays.map(({ bayId, name }) => [bayId, bayWords(name)] as const))
  const people = new Map(view.people.map(({ personId, name }) => [personId, name] as const))
  return {
    car: (id) => cars.get(id)?.name ?? 'a car that is gone',
    row: (id) => cars.get(id),
    bay: (id) => bays.get(id) ?? 'a bay that is gone',
    person: (id) => people.get(id) ?? 'somebody who is gone',
    work: ({ carId, target }) => cars.get(carId)?.workNames[targetKey(target)] ?? 'work that is gone',
  }
}

/** The key of a stay's block: a booking keeps it when it is moved. */
const stayKey = ({ bookingId, carId, bayId, from }: PlannedStay): string =>
  bookingId === null ? `stay ${carId} ${bayId} ${from}` : `booking ${bookingId}`

export const workKey = (work: PlannedWork, personId: PersonId): string =>
  `work ${personId} ${work.carId} ${targetKey(work.target)}`

const byTime = (a: Stretch, b: Stretch): number => a.from - b.from || a.to - b.to

function byPerson<T extends { readonly people: readonly PersonId[] }>(
  items: readonly T[],
): ReadonlyMap<PersonId, readonly T[]> {
  const found = new Map<PersonId, T[]>()
  for (const item of items) {
    for (const id of item.people) {
      const of = found.get(id)
      if (of === undefined) found.set(id, [item])
      else of.push(item)
    }
  }
  return found
}

function bayRow(bay: PlanBayRow, stays: readonly PlannedStay[]): BayRow {
  const blocks = stays.map((stay): StayBlock => {
    const { carId, from, to } = stay
    return { kind: 'stay', key: stayKey(stay), carId, from, to, stay }
  })
  return { kind: 'bay', key: `bay ${bay.bayId}`, bay, blocks: blocks.toSorted(byTime) }
}

const workBlock = (work: PlannedWork, personId: PersonId): WorkBlock => ({
  kind: 'work',
  key: workKey(work, personId),
  carId: work.carId,
  from: work.start,
  to: work.finish,
  work,
})

const moveBlock = (move: PlannedMove, personId: PersonId): MoveBlock => ({
  kind: 'move',
  key: `move ${personId} ${move.carId} ${move.start}`,
  carId: move.carId,
  from: move.start,
  to: move.finish,
  move,
})

/** Nothing is drawn for a car of which neither a promise nor a finish is known. */
function finishBlock(car: PlannedCar, dayEndOf: (date: string) => Moment): readonly FinishBlock[] {
  const promisedBy = car.promised === null ? null : dayEndOf(car.promised)
  const at = [promisedBy, car.finish50, car.finish80, car.finish].filter((each) => each !== null)
  if (at.length === 0) return []
  const { carId } = car
  const [from, to] = [Math.min(...at), Math.max(...at)]
  return [{ kind: 'finish', key: `finish ${carId}`, carId, from, to, car, promisedBy }]
}
