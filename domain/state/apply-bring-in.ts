import type { CarDraft, Stamp } from '../car.ts'
import type { Fact } from '../facts.ts'
import { isOver } from '../visit-over.ts'

/**
 * Closes what another workshop recorded: its visits are over, the shell stands nowhere yet, and nobody there is waited for
 * any more. What was found, done and agreed stays as it was told.
 */
export const applyBringIn = (car: CarDraft, fact: Fact, stamp: Stamp): void => {
  if (fact.kind !== 'carBroughtIn') return
  const { from, lines, withheld } = fact.payload
  car.broughtIn = { from, lines, withheld, stamp }
  endVisits(car, from, stamp)
  leavePlace(car, stamp)
  endHours(car, stamp)
  datePhotos(car)
  for (const [id, { status }] of car.variations) if (status === 'raised') car.variations.delete(id)
  for (const repair of car.repairs.values()) {
    repair.from ??= from
    // A hold is released by the manager of the workshop that does the work.
    repair.releases = repair.releases.filter(({ gate }) => repair.gates[gate].status !== 'open')
  }
}

const endVisits = (car: CarDraft, from: string, stamp: Stamp): void => {
  for (const visit of car.visits.values()) {
    visit.from ??= from
    if (isOver(visit)) continue
    visit.status = 'delivered'
    visit.statusSince = stamp.happened
  }
}

const leavePlace = (car: CarDraft, stamp: Stamp): void => {
  car.safety = { bracing: false, battery: false, fuel: false }
  car.standing = null
  car.bookings.clear()
  car.pins.clear()
  car.left.clear()
  car.fixturePlanned = null
  for (const lift of car.lifts.values()) lift.ended ??= stamp
  for (const away of car.aways.values()) away.returned ??= { ...stamp, uncovered: '' }
}

/** Recorded here much later: a photo without a camera date counts from when it is said to have been added. */
const datePhotos = (car: CarDraft): void => {
  for (const [id, photo] of car.attachments)
    if (photo.taken === null) car.attachments.set(id, { ...photo, countsAt: photo.stamp.happened })
}

/** A clock that nobody stopped has no hours to tell; a watch that nobody completed is over. */
const endHours = (car: CarDraft, stamp: Stamp): void => {
  for (const [id, entry] of car.entries) {
    if (entry.time.kind === 'running') car.entries.delete(id)
    entry.confirmed = true
    if (entry.watch) entry.watch.completed ??= stamp
  }
}
