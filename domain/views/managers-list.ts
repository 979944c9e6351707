import type { CarState, RepairState } from '../car.ts'
import { gateHolds, standing } from '../rules/holds.ts'
import { activeRepairs, isDone, isFinished } from '../rules/standing.ts'
import { carFaults } from './repair-card.ts'
import type { CarOnFloor } from './car-on-floor.ts'
import { stampName, type ViewContext } from './view-context.ts'
import type { ShopFloorView } from './view-shapes.ts'
import { inSentence } from './work-words.ts'

type ManagersList = ShopFloorView['forYou']

/** What waits for the manager's word. A technician has none. */
export function managersList(
  floor: readonly CarOnFloor[],
  isForManager: boolean,
  context: ViewContext,
): ManagersList {
  if (!isForManager) return { releases: [], decisions: [], faults: [], reviews: [] }
  return {
    releases: floor.flatMap(({ car }) => askedReleases(car, context)).toSorted((a, b) => a.asked - b.asked),
    decisions: floor.flatMap(({ car }) => openDecisions(car)).toSorted((a, b) => a.since - b.since),
    faults: floor.flatMap(({ car }) =>
      carFaults(car).map(({ words }) => ({ carId: car.id, carName: car.name, words })),
    ),
    reviews: floor.flatMap(({ car, line }) => (line.status === 'in work' ? missingReviews(car) : [])),
  }
}

/** Asked for, not given, and the hold still stands. */
function askedReleases(car: CarState, context: ViewContext): ManagersList['releases'] {
  const { workshop, nameOf } = context
  // Skill holds only whom it names: somebody asked for a release of it, so it is judged for everybody.
  const did = [...workshop.people.keys()]
  return activeRepairs(car).flatMap((repair) =>
    askedOf(repair)
      .filter(({ gate, code, subject }) =>
        standing(gateHolds(car, repair.id, gate, { ...context, did })).some(
          (hold) => hold.code === code && hold.subject === subject,
        ),
      )
      .map(({ gate, code, subject, reason, stamp }) => ({
        carId: car.id,
        carName: car.name,
        repairId: repair.id,
        words: `${stampName(stamp, nameOf)} asks to release '${code}'${code === 'skill' ? ` of ${nameOf(subject)}` : ''} on ${inSentence(repair.plan.name)}, ${gate}: ${reason}`,
        asked: stamp.happened,
      })),
  )
}

/** The last time each hold was asked about, on gates that are open. */
function askedOf(repair: RepairState): RepairState['releases'] {
  const asked = repair.releases.filter((release) => release.asked && !isDone(repair, release.gate))
  return asked.filter(
    ({ gate, code, subject }, index) =>
      !asked
        .slice(index + 1)
        .some((later) => later.gate === gate && later.code === code && later.subject === subject),
  )
}

function openDecisions(car: CarState): ManagersList['decisions'] {
  return [...car.variations.values()]
    .filter(({ status }) => status === 'raised')
    .map(({ title, raised }) => ({ carId: car.id, carName: car.name, title, since: raised.happened }))
}

/** Assessed, and fabricated waits for the manager's look at the estimate. */
function missingReviews(car: CarState): ManagersList['reviews'] {
  return activeRepairs(car)
    .filter(
      (repair) =>
        repair.reviewed === null &&
        !isFinished(repair) &&
        isDone(repair, 'assessed') &&
        !isDone(repair, 'fabricated') &&
        repair.plan.gates.fabricated.asks.review,
    )
    .map(({ id, plan }) => ({ carId: car.id, carName: car.name, repairId: id, repairName: plan.name }))
}
