import type { PlanFloor } from './floor-bays.ts'
import { followersOf, withFollowers } from './draft-graph.ts'
import type { DraftWork } from './draft-work.ts'
import { type NamedFault, namedFault } from './faults.ts'
import type { DraftStand } from './stands.ts'
import type { Link, PlanCar } from '../problem.ts'

/** What the check needs to know of the car of a stand. */
export type CarOfStand = Pick<PlanCar, 'braced' | 'bay'>

export interface StandingCars {
  readonly floor: PlanFloor
  readonly carOf: ReadonlyMap<string, CarOfStand>
}

/**
 * Work that a shell would have to be moved for while it is open and neither braced nor on a fixture: all work between the
 * opening and the closing of a side has to find its bay where the shell stands then.
 */
export function movesWhileOpen(
  work: readonly DraftWork[],
  links: readonly Link[],
  stands: readonly DraftStand[],
  { floor, carOf }: StandingCars,
): readonly NamedFault[] {
  const followers = followersOf(work.length, links)
  const leaders = followersOf(
    work.length,
    links.map(({ before, after, lag }) => ({ before: after, after: before, lag })),
  )
  return stands.flatMap(({ carId, from, until, repair }) => {
    const car = carOf.get(carId)
    if (car === undefined || car.braced) return []
    const before = withFollowers([until], leaders)
    const after = from === null ? null : withFollowers([from], followers)
    const within = [...before].filter((index) => after === null || after.has(index)).toSorted((a, b) => a - b)
    const kindAt = (index: number): number | null => floor.kindOf(work[index]?.plan.bayKind ?? '')
    const kinds = within.flatMap((index) => kindAt(index) ?? [])
    const suits = from === null ? kindsOf(car.bay, floor) : kindsOf(bestBay(floor, kinds), floor)
    return within.flatMap((index) => {
      const draft = work[index]
      const kind = kindAt(index)
      if (draft === undefined || kind === null || suits.has(kind)) return []
      const words = `a bay of the kind '${draft.plan.bayKind}' is needed while ${repair.plan.name} stands open, and the shell is neither braced nor on a fixture, so it cannot be moved there`
      const next = 'Brace the shell, plan it on a jig, rotisserie or dolly, or give its bay that kind.'
      return [namedFault(draft, 'not braced', repair.id, words, next)]
    })
  })
}

/** A car's work that has to be done in another bay than the one it stands in. */
export function workElsewhere(
  work: readonly DraftWork[],
  carId: string,
  { floor, carOf }: StandingCars,
): readonly number[] {
  const car = carOf.get(carId)
  if (car === undefined || car.braced) return []
  const suits = kindsOf(car.bay, floor)
  return [...work.entries()].flatMap(([index, { car: own, plan }]) => {
    const kind = own.id === carId ? floor.kindOf(plan.bayKind ?? '') : null
    return kind === null || suits.has(kind) ? [] : [index]
  })
}

/** No kinds where it stands in no bay, or in the yard. */
const kindsOf = (bay: number | null, { bays }: PlanFloor): ReadonlySet<number> =>
  new Set(bay === null ? [] : bays[bay]?.kinds)

/** The bay in which most of it can be done. */
function bestBay({ bays }: PlanFloor, kinds: readonly number[]): number {
  const suited = bays.map((bay) => kinds.filter((kind) => bay.kinds.includes(kind)).length)
  return suited.indexOf(Math.max(...suited))
}
