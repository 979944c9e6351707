import type { CarState, Moment, RepairState } from '../car.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import type { PhotoServes } from '../facts/work-facts.ts'
import type { Gate } from '../gates.ts'
import type { CarId, LayerId, PersonId, RepairId, TaskId } from '../ids.ts'
import { isActive, nextGate } from '../rules/standing.ts'
import { instantToIso } from '../time/zone.ts'
import { targetKey } from '../value/target.ts'
import type { ViewInput } from '../views/view-context.ts'
import { cardDays, type CardDay } from './photo-days.ts'
import { correctionWords, type ClockCorrection } from './photo-clock.ts'
import { matchPhotos } from './photo-match.ts'
import type { CameraTime, CardPhoto, PhotoMatch } from './photo-match-shapes.ts'
import { nearTo } from './photo-near.ts'
import { carForPhotos, lackedPhotos } from './photo-work.ts'
import { isOver } from '../visit-over.ts'

/** Where a photo with the same bytes is attached already. */
export interface PhotoHere {
  readonly carId: CarId
  readonly serves: readonly PhotoServes[]
  readonly at: Moment
  readonly by: string
}

export interface ProposedPhoto extends PhotoMatch {
  /** `taken` as the fact states it: ISO 8601 with its offset. */
  readonly takenIso: string | null
  readonly camera: CameraTime | null
  readonly here: readonly PhotoHere[]
}

export interface RepairToChoose {
  readonly id: RepairId
  readonly name: string
  readonly next: Gate | null
  readonly layers: readonly { readonly id: LayerId; readonly name: string }[]
}

export interface CarToChoose {
  readonly carId: CarId
  readonly name: string
  readonly shellNumber: string
  readonly repairs: readonly RepairToChoose[]
  readonly tasks: readonly { readonly id: TaskId; readonly name: string }[]
}

export interface CardProposal {
  /** 'The camera’s clock is 1 h 4 min slow.', or null where it is taken as right. */
  readonly correction: string | null
  /** In the order in which they were taken; those without a date last. */
  readonly photos: readonly ProposedPhoto[]
  /** Cars to choose from by hand: those that are not delivered, and those that a photo fits or is attached to. */
  readonly cars: readonly CarToChoose[]
  /** The work of each day that the photos are set beside. */
  readonly days: readonly CardDay[]
  /** What the gates that photos fit still ask for, in words, by car and target key. */
  readonly lacks: Readonly<Record<string, readonly string[]>>
}

export interface CardToPropose extends ViewInput {
  readonly photos: readonly CardPhoto[]
  /** Every car of the workshop, in order of shell numbers. */
  readonly cars: readonly CarState[]
  /** The only car that the photos are of; null for any. */
  readonly of: CarId | null
  /** The person whose camera it is; null for anybody's. */
  readonly by: PersonId | null
  readonly correction: ClockCorrection | null
}

/** Where each photo of a card most likely belongs, for a person to confirm. */
export function cardProposal(input: CardToPropose): CardProposal {
  const { cars, of, by, correction, workshop, now } = input
  const { zone } = workshop
  const here = attachedAlready(input)
  const cameras = new Map(input.photos.map((photo) => [photo.sha256, photo.camera]))
  const isNear = nearTo(input.photos, correction, zone)
  const looked = cars
    .filter(({ id }) => of === null || id === of)
    .map((car) => carForPhotos(car, input, by, isNear))
  const matched = matchPhotos({
    photos: input.photos,
    cars: looked,
    correction,
    zone,
    now,
  })
  const photos = matched
    .map((match) => ({
      ...match,
      takenIso: match.taken === null ? null : instantToIso(match.taken, zone),
      camera: cameras.get(match.sha256) ?? null,
      here: here.get(match.sha256) ?? [],
    }))
    .toSorted((a, b) => (a.taken ?? Infinity) - (b.taken ?? Infinity) || 0)
  return {
    correction: correction === null ? null : correctionWords(correction),
    photos,
    cars: carsToChoose(input, photos),
    days: cardDays(looked, matched, zone),
    lacks: lacksOf(cars, photos),
  }
}

/** By SHA-256: a photo is known by its bytes, whatever its file is called. */
function attachedAlready({ cars, photos, nameOf }: CardToPropose): ReadonlyMap<string, readonly PhotoHere[]> {
  const asked = new Set(photos.map(({ sha256 }) => sha256))
  const here = new Map<string, PhotoHere[]>()
  for (const car of cars)
    for (const { sha256, serves, stamp } of car.attachments.values()) {
      if (!asked.has(sha256)) continue
      const by = stamp.by === null ? 'the workshop' : nameOf(stamp.by)
      here.set(sha256, [...(here.get(sha256) ?? []), { carId: car.id, serves, at: stamp.recorded, by }])
    }
  return here
}

function carsToChoose({ cars, of }: CardToPropose, photos: readonly ProposedPhoto[]): readonly CarToChoose[] {
  const named = new Set(
    photos.flatMap(({ fits, others, here }) => [...fits, ...others, ...here].map(({ carId }) => carId)),
  )
  const isOffered = (car: CarState) => (of === null ? isStillHere(car) : car.id === of)
  return cars
    .filter((car) => named.has(car.id) || isOffered(car))
    .map((car) => ({
      carId: car.id,
      name: car.name,
      shellNumber: car.shellNumber,
      repairs: [...car.repairs.values()].filter(isActive).map(repairToChoose),
      tasks: [...car.tasks.values()].map(({ id, plan }) => ({ id, name: plan.name })),
    }))
}

function isStillHere(car: CarState): boolean {
  const visit = car.currentVisit === null ? undefined : car.visits.get(car.currentVisit)
  return !isOver(visit)
}

function repairToChoose(repair: RepairState): RepairToChoose {
  const layers = repair.plan.layers.map(({ layerId, name }) => ({ id: layerId, name }))
  return { id: repair.id, name: repair.plan.name, next: nextGate(repair), layers }
}

function lacksOf(cars: readonly CarState[], photos: readonly ProposedPhoto[]): CardProposal['lacks'] {
  const byId = new Map(cars.map((car) => [car.id, car]))
  const lacks = new Map<string, readonly string[]>()
  for (const { carId, target } of photos.flatMap(({ fits }) => fits)) {
    const key = workKey(carId, target)
    const car = byId.get(carId)
    const repair = target.kind === 'gate' ? car?.repairs.get(target.repairId) : undefined
    if (lacks.has(key) || car === undefined || repair === undefined || target.kind !== 'gate') continue
    lacks.set(key, lackedPhotos(car, repair, target.gate))
  }
  return Object.fromEntries(lacks)
}

/** One text for each gate and task of each car. */
export const workKey = (carId: CarId, target: WorkTarget): string => `${carId}/${targetKey(target)}`
