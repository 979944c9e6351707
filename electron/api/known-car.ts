import { contactBook } from '../../db/contacts.ts'
import { hasCar, readCar, readWorkshop } from '../../db/reads.ts'
import type { CarState } from '../../domain/car.ts'
import type { CarId } from '../../domain/ids.ts'
import { refuse } from '../../domain/refusal.ts'
import type { ViewInput } from '../../domain/views/view-context.ts'
import type { ApiDeps } from './deps.ts'
import { RefusedError } from './refused-error.ts'

/** What every view is told beside its cars. */
export const viewInput = ({ db, now }: Pick<ApiDeps, 'db' | 'now'>): ViewInput => ({
  now: now(),
  workshop: readWorkshop(db),
  nameOf: contactBook(db).nameOf,
})

/** @throws RefusedError where there is no car with that id */
export function knownCar({ db }: Pick<ApiDeps, 'db'>, carId: CarId): CarState {
  const car = readCar(db, carId)
  if (car === null) throw new RefusedError(unknownCar.refusal)
  return car
}

/** The same for those who need nothing of it but its id: it is not folded. */
export function requireCar({ db }: Pick<ApiDeps, 'db'>, carId: CarId): void {
  if (!hasCar(db, carId)) throw new RefusedError(unknownCar.refusal)
}

export const unknownCar = refuse('unknown', 'This car is not known here.', 'Choose it from the list of cars.')
export const { refusal: unknownRepair } = refuse(
  'unknown',
  'This repair is not known on this car.',
  'Choose it from the car’s closing map.',
)
