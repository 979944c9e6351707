import type { Moment } from '../../domain/car.ts'
import type { Gate } from '../../domain/gates.ts'
import type { ClockCorrection } from '../../domain/import/photo-clock.ts'
import { matchPhotos } from '../../domain/import/photo-match.ts'
import type { CardPhoto, PhotoMatch } from '../../domain/import/photo-match-shapes.ts'
import { nearTo } from '../../domain/import/photo-near.ts'
import { carForPhotos } from '../../domain/import/photo-work.ts'
import { buildCar, entryId, onGate, personId, type CarBuilder } from './car-builder.ts'
import { buildWorkshop, nameOf } from './workshop-builder.ts'

/** A photo of a camera that shows the given local time: `cardPhoto('a', '2026-11-24T14:32:10')`. */
export const cardPhoto = (name: string, local: string | null, offset: string | null = null): CardPhoto => ({
  sha256: name.replaceAll(/[^0-9a-f]/g, '0').padEnd(64, '0'),
  camera: local === null ? null : { local, offset },
})

/** A clock of one person on a gate, on Tue 24 Nov 2026 unless said otherwise, UTC. */
export const clocked = (
  car: CarBuilder,
  [id, person]: readonly [string, string],
  [repair, gate]: readonly [string, Gate],
  [from, to]: readonly [string, string],
  day = '2026-11-24',
): CarBuilder =>
  car
    .at(`${day}T${from}`)
    .clock(id, person, `${day}T${from}`, [onGate(repair, gate)])
    .at(`${day}T${to}`)
    .add('clockStopped', {
      entryId: entryId(id),
      end: `${day}T${to}:00Z`,
      countsTo: `${day}T${to}:00Z`,
      overtime: false,
      shares: null,
      watchMinutes: null,
    })

/**
 * The Dunmere on Tue 24 Nov 2026: Joss opens the boot floor from 08:00 to 09:30 and passes opened at 09:40, assesses it
 * from 10:00 to 11:00, passed at 11:05, and fabricates from 13:10 to 15:40; Wren has the left sill open from 15:00 to 16:00.
 */
export const dayOnTheBootFloor = (): CarBuilder => {
  const asks = { photosBefore: 1, photos: 1, layerPhotos: 'none', safety: false, review: false } as const
  const rest = { drains: false, conditions: null, fitUp: false, dimensions: false, welds: false }
  const car = buildCar()
    .repair('Boot floor, right', {
      gates: { opened: { asks: { ...asks, ...rest, secondSignature: false } } },
    })
    .repair('Left sill')
  clocked(car, ['opening', 'Joss'], ['Boot floor, right', 'opened'], ['08:00', '09:30'])
  car.at('2026-11-24T09:40').pass('Boot floor, right', 'opened')
  clocked(car, ['assessing', 'Joss'], ['Boot floor, right', 'assessed'], ['10:00', '11:00'])
  car.at('2026-11-24T11:05').pass('Boot floor, right', 'assessed')
  clocked(car, ['fabricating', 'Joss'], ['Boot floor, right', 'fabricated'], ['13:10', '15:40'])
  clocked(car, ['sill', 'Wren'], ['Left sill', 'opened'], ['15:00', '16:00'])
  return car
}

const workshop = buildWorkshop()
/** The morning after the day on the boot floor. */
export const cardNow = Date.parse('2026-11-25T09:00:00Z')

/** The matches of photos to a car's work, the Dunmere's day on the boot floor unless said otherwise. */
export function matchCard(
  photos: readonly CardPhoto[],
  cars: readonly CarBuilder[] = [dayOnTheBootFloor()],
  more: {
    readonly correction?: ClockCorrection | null
    readonly zone?: string
    readonly now?: Moment
    readonly by?: string
  } = {},
): readonly PhotoMatch[] {
  const at = more.now ?? cardNow
  const known = cars.map((car) =>
    carForPhotos(
      car.car(),
      { now: at, workshop, nameOf },
      more.by === undefined ? null : personId(more.by),
      nearTo(photos, more.correction ?? null, more.zone ?? 'UTC'),
    ),
  )
  return matchPhotos({ photos, cars: known, correction: null, zone: 'UTC', ...more, now: at })
}
