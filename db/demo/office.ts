import type { RepairState } from '../../domain/car.ts'
import { awayIdSchema, holdIdSchema, type PersonId } from '../../domain/ids.ts'
import { activeRepairs, isDone, isFinished, nextGate } from '../../domain/rules/standing.ts'
import { isStorage } from '../../domain/workshop.ts'
import { carOf, demoRepairOf, repairIdOf, send, takePhoto, type Act } from './act.ts'
import { acceptEstimate, addRepair, bringIn, makeReady, nameFits, visitIdOf } from './arrival.ts'
import { demoBayId, type DemoCar, type DemoStay } from './demo-car.ts'
import { seeToMoney, seeToRates } from './demo-money.ts'
import { demoParties, demoPeople, partyId } from './demo-people.ts'
import type { Floor } from './floor.ts'
import { isOffOn } from './job-book.ts'
import { seeToParts } from './parts.ts'
import { demoCarId } from './stage.ts'
import { seeToVariations } from './variations.ts'

/** Working days from a car's arrival to its owner's signature under the estimate. */
const DAYS_TO_ACCEPT = 3

/** What the office sees to in the morning, before the floor begins. */
export function openOffice(floor: Floor, cars: readonly DemoCar[], day: number): void {
  const manager = managerOn(day)
  seeToRates(floor, manager, day)
  const acts = cars.map((demo): Act => ({ stage: floor.stage, demo, by: manager }))
  for (const act of acts) if (act.demo.arrives === day) bringIn(act, floor.days)
  moveShells(floor, acts, day)
  reopenAfterFailedFit(floor, manager)
  for (const act of acts) if (act.demo.arrives <= day) seeToCar(floor, act, day)
}

const managerOn = (day: number): PersonId =>
  (isOffOn(demoPeople.maren, day) ? demoPeople.wren : demoPeople.maren).id

function seeToCar(floor: Floor, act: Act, day: number): void {
  const { demo } = act
  sendOrFetch(floor, act, day)
  if (demo.measuredFrom === day) {
    makeReady({ ...act, by: demoPeople.joss.id })
    nameFits(act)
  }
  if (demo.arrives + DAYS_TO_ACCEPT === day) acceptEstimate(act)
  seeToMoney(floor, act, day)
  for (const repair of demo.repairs) if (repair.added === day) addRepair(act, repair)
  setStatus(act, day)
  for (const [when, text] of demo.notes) if (when === day) send(act, 'addNote', { text })
  setHold(floor, act, day)
  skipGates(act)
  seeToParts(floor, act, day)
  seeToVariations(floor, act, day)
  for (const repair of activeRepairs(carOf(act)))
    if (isDone(repair, 'assessed') && repair.reviewed === null && !isFinished(repair))
      send(act, 'reviewEstimate', { repairId: repair.id, note: '' })
}

/** Shells that leave a bay go first, so that others find it empty. */
function moveShells(floor: Floor, acts: readonly Act[], day: number): void {
  let waiting = acts.flatMap((act) =>
    act.demo.stays.filter(({ from }) => from === day).map((stay) => ({ act, stay })),
  )
  while (waiting.length > 0) {
    const free = waiting.filter(({ act, stay }) => isFree(floor, acts, act, stay))
    if (free.length === 0) throw new Error(`Two cars of the demo want one bay on day ${day}.`)
    for (const { act, stay } of free)
      send(act, 'moveShell', { bayId: demoBayId[stay.bay], fixture: stay.on, note: '' })
    waiting = waiting.filter((each) => !free.includes(each))
  }
}

function isFree({ stage }: Floor, acts: readonly Act[], act: Act, { bay }: DemoStay): boolean {
  const bayId = demoBayId[bay]
  const wanted = stage.workshop().bays.get(bayId)
  if (wanted && isStorage(wanted)) return true
  return acts.every(
    (other) => other === act || stage.carIfThere(demoCarId(other.demo.key))?.standing?.bayId !== bayId,
  )
}

function reopenAfterFailedFit(floor: Floor, by: PersonId): void {
  for (const { demo, group } of floor.failed.splice(0)) {
    if (!group.firstFails) continue
    const { repair, gate, cause, reason } = group.firstFails
    send({ stage: floor.stage, demo, by }, 'reopenGate', {
      repairId: repairIdOf(demo, repair),
      gate,
      cause,
      reason,
    })
  }
}

function sendOrFetch({ stage, days }: Floor, act: Act, day: number): void {
  const { away, key } = act.demo
  if (!away) return
  const awayId = awayIdSchema.parse(`demo-${key}-away`)
  if (away.from === day) {
    stage.send('addParty', null, act.by, demoParties[away.firm])
    send(act, 'sendAway', {
      awayId,
      firmId: partyId(away.firm),
      what: away.what,
      from: days.date(away.from),
      expected: days.date(away.expected),
    })
  }
  if (away.back !== day) return
  send(act, 'bringBack', {
    awayId,
    bayId: demoBayId[away.bay],
    fixture: away.on,
    tookBack: away.tookBack.map(([repair, gate]) => ({ repairId: repairIdOf(act.demo, repair), gate })),
    uncovered: away.uncovered,
    reason: away.reason,
  })
  takePhoto(act, {
    kind: 'bare steel',
    caption: away.uncovered,
    slate: 'back from the dip',
    serves: [{ what: 'car' }],
  })
}

function setStatus(act: Act, day: number): void {
  const { demo } = act
  const visitId = visitIdOf(demo)
  const car = carOf(act)
  const status = car.visits.get(visitId)?.status
  if (demo.paused?.from === day)
    send(act, 'setVisitStatus', { visitId, status: 'paused', reason: demo.paused.reason })
  if (demo.paused?.to === day) send(act, 'setVisitStatus', { visitId, status: 'in work', reason: '' })
  if (demo.finished !== undefined && demo.finished <= day && status === 'in work' && isReady(act))
    send(act, 'setVisitStatus', { visitId, status: 'finished', reason: '' })
  if (demo.delivered !== undefined && demo.delivered <= day && status === 'finished')
    send(act, 'setVisitStatus', { visitId, status: 'delivered', reason: '' })
}

const isReady = (act: Act): boolean => {
  const car = carOf(act)
  return (
    activeRepairs(car).every(isFinished) && [...car.tasks.values()].every(({ status }) => status !== 'open')
  )
}

function setHold({ days, stage }: Floor, act: Act, day: number): void {
  const { hold, key } = act.demo
  if (hold?.set !== day) return
  send(act, 'setHold', {
    holdId: holdIdSchema.parse(`demo-${key}-hold-${stage.id('hold')}`),
    scope: { kind: 'gate', repairId: repairIdOf(act.demo, hold.repair), gate: hold.gate },
    words: hold.words,
    clears: hold.clears,
    expected: days.date(hold.expected),
  })
}

/** Gates that the demo says are not needed, when their turn has come. */
function skipGates(act: Act): void {
  for (const repair of activeRepairs(carOf(act))) skipGate(act, repair)
}

function skipGate(act: Act, repair: RepairState): void {
  const next = nextGate(repair)
  for (const [gate, reason] of demoRepairOf(act.demo, repair.id).notNeeded ?? [])
    if (gate === next) send(act, 'markNotNeeded', { repairId: repair.id, gate, reason })
}
