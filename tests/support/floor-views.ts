import type { CarState } from '../../domain/car.ts'
import { carsView } from '../../domain/views/cars-view.ts'
import { shopFloorView } from '../../domain/views/shop-floor-view.ts'
import { buildCar, personId } from './car-builder.ts'
import { bayId, buildWorkshop, nameOf } from './workshop-builder.ts'

export const workshop = buildWorkshop()

/** Wednesday of week 48. */
export const now = Date.parse('2026-11-25T10:40:00Z')

/** The shop floor as somebody sees it, without a plan. */
export const floorOf = (cars: readonly CarState[], by = personId('Mara')) =>
  shopFloorView({ cars, now, workshop, nameOf, by, plan: null })

/** The line of a car in the list of all. */
export const lineOf = (car: CarState) =>
  carsView({ cars: [car], resting: [], now, workshop, nameOf }).cars[0]!

/** A car that stands in a bay since the beginning of the month. */
export const inBay = (bay: string, over: Parameters<typeof buildCar>[0] = {}) =>
  buildCar(over)
    .at('2026-11-02T09:00')
    .add('shellMoved', { bayId: bayId(bay), fixture: 'stands', note: '' })
    .at('2026-11-03T08:00')

/** In bay 1, with a boot floor that its owner has agreed to. */
export const dunmere = () => inBay('1 metalwork').repair('Boot floor').agree('Boot floor')
