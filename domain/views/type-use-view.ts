import type { CarState, RepairState } from '../car.ts'
import { gateOrder, type Gate } from '../gates.ts'
import type { TypeId } from '../ids.ts'
import { activeRepairs, isDone, isFinished } from '../rules/standing.ts'
import { canonicalJson } from '../text/canonical-json.ts'
import type { RepairType } from '../workshop.ts'
import { currentVisit } from './car-header.ts'
import { byUrgency } from './cars-view.ts'
import type { TypeUseView } from './view-shapes.ts'
import { isOver } from '../visit-over.ts'

/** Which repairs not finished, on cars not delivered, carry an older version of a type than the one given. */
export function typeUseView({
  cars,
  type,
}: {
  readonly cars: readonly CarState[]
  readonly type: RepairType
}): TypeUseView {
  const uses = cars
    .filter((car) => !isOver(currentVisit(car)))
    .map((car) => ({ car, repairs: openOfType(car, type.id) }))
  const carries = ({ typeVersion }: RepairState): boolean => typeVersion === type.version
  return {
    version: type.version,
    current: uses.flatMap(({ repairs }) => repairs).filter(carries).length,
    cars: uses
      .map(({ car, repairs }) => ({
        carId: car.id,
        carName: car.name,
        shellNumber: car.shellNumber,
        priority: currentVisit(car)?.priority ?? 1,
        promised: currentVisit(car)?.promised ?? null,
        older: repairs.filter((repair) => !carries(repair)).map((repair) => olderRepair(repair, type)),
      }))
      .filter(({ older }) => older.length > 0)
      .toSorted(byUrgency)
      .map(({ carId, carName, older }) => ({ carId, carName, older })),
  }
}

const openOfType = (car: CarState, typeId: TypeId): readonly RepairState[] =>
  activeRepairs(car).filter((repair) => repair.typeId === typeId && !isFinished(repair))

function olderRepair(
  repair: RepairState,
  { plan }: RepairType,
): TypeUseView['cars'][number]['older'][number] {
  const isOther = (gate: Gate): boolean =>
    canonicalJson(repair.plan.gates[gate]) !== canonicalJson(plan.gates[gate])
  return {
    repairId: repair.id,
    name: repair.plan.name,
    version: repair.typeVersion,
    changes: gateOrder(repair.plan).filter((gate) => !isDone(repair, gate) && isOther(gate)),
  }
}
