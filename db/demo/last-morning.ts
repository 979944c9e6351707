import type { Moment } from '../../domain/car.ts'
import type { WorkTarget } from '../../domain/facts/shapes.ts'
import { entryIdSchema, findingIdSchema, type EntryId } from '../../domain/ids.ts'
import type { Gate } from '../../domain/gates.ts'
import { gateHolds, standing } from '../../domain/rules/holds.ts'
import { nextGate, standsOpen } from '../../domain/rules/standing.ts'
import {
  carOf,
  fitGroupIdOf,
  gateServes,
  repairIdOf,
  repairOf,
  send,
  takePhoto,
  taskIdOf,
  type Act,
} from './act.ts'
import { dunmere } from './cars/dunmere.ts'
import { hesslow } from './cars/hesslow.ts'
import { marrick } from './cars/marrick.ts'
import { ostwick } from './cars/ostwick.ts'
import { pellin } from './cars/pellin.ts'
import { tamsel } from './cars/tamsel.ts'
import { velloran } from './cars/velloran.ts'
import type { DemoCar } from './demo-car.ts'
import { demoPeople, type DemoPersonKey } from './demo-people.ts'
import type { Floor } from './floor.ts'
import { bringEvidence, recordFitUp } from './gate-evidence.ts'

export interface Morning {
  readonly start: Moment
  /** The last moment of the demo. */
  readonly end: Moment
}

const MINUTE = 60_000
/** Fire watches that run when somebody looks around began this long before. */
const WATCH_BEGAN_MS = 35 * MINUTE

/**
 * The last morning is told and not played, so that whoever opens the demo finds people at work: clocks that run, a fire
 * watch, a release that was asked for, one clock that nobody stopped the day before.
 */
export function tellLastMorning(floor: Floor, { start, end }: Morning): void {
  const at = (share: number, action: () => void) =>
    floor.agenda.add(start + Math.round((share * (end - start)) / 1000) * 1000, action)
  const by = (person: DemoPersonKey, demo: DemoCar): Act => ({
    stage: floor.stage,
    demo,
    by: demoPeople[person].id,
  })
  tellMarrick(by('wren', marrick), at)
  tellDunmere(by('joss', dunmere), at)
  tellVelloran(by('ines', velloran), at)
  tellTamsel(by('pia', tamsel), at)
  at(0.42, () => clockOn(by('ines', hesslow), { kind: 'task', taskId: taskIdOf(hesslow, 'paint') }))
  at(0.75, () => {
    takePhoto(by('ines', hesslow), {
      kind: 'body colour',
      caption: 'First colour coat on the roof',
      slate: 'first coat',
      serves: [{ what: 'task', taskId: taskIdOf(hesslow, 'paint') }],
    })
  })
  at(0.8, () =>
    send(by('maren', pellin), 'addNote', {
      text: 'Owner asks for a price for the whole right front corner by Friday.',
    }),
  )
  const weldAtOstwick = hotWork(by('tam', ostwick))
  at(0.04, weldAtOstwick.begin)
  floor.agenda.add(Math.max(start + MINUTE, end - WATCH_BEGAN_MS), weldAtOstwick.stop)
}

/** The afternoon before: a clock that is never stopped. */
export function leaveClockRunning(floor: Floor): void {
  const act: Act = { stage: floor.stage, demo: pellin, by: demoPeople.bram.id }
  clockOn(act, nextTarget(act, 'inner-wing-r'))
}

type GateTarget = WorkTarget & { readonly kind: 'gate' }
type At = (share: number, action: () => void) => void

function clockOn(act: Act, target: WorkTarget): EntryId {
  const entryId = entryIdSchema.parse(act.stage.id('entry'))
  send(act, 'startClock', {
    entryId,
    personId: act.by,
    on: { kind: 'work', targets: [target] },
    hotWork: target.kind === 'gate' && isHot(act, target),
    cause: null,
  })
  return entryId
}

const isHot = (act: Act, { repairId, gate }: GateTarget): boolean =>
  repairOf(act, repairId).plan.gates[gate].hotWork

const clockOff = (act: Act, entryId: EntryId): void => {
  send(act, 'stopClock', { entryId, overtime: false, shares: null })
}

/** The gate that comes next on a repair, whatever that is by now. */
function nextTarget(act: Act, key: string): GateTarget {
  const repair = repairOf(act, repairIdOf(act.demo, key))
  const gate = nextGate(repair)
  if (gate === null) throw new Error(`${repair.plan.name} has nothing left to do.`)
  return { kind: 'gate', repairId: repair.id, gate }
}

/** The boot lid is held up to the open corner with clamps, to see where it stands. */
function tellMarrick(act: Act, at: At): void {
  at(0.02, () => clockOn(act, nextTarget(act, 'leg-r')))
  at(0.35, () => {
    const group = carOf(act).fitGroups.get(fitGroupIdOf(act.demo, 'boot-opening'))
    if (group) recordFitUp(act, group, 'dry')
    takePhoto(act, {
      kind: 'panel gap',
      caption: 'Boot lid clamped up dry; the valance is not primed yet',
      slate: 'boot lid, dry',
      serves: gateServes(
        ['leg-r', 'quarter-r'].map((key) => repairIdOf(act.demo, key)),
        'trial-fitted',
        'work',
      ),
    })
  })
}

function tellDunmere(act: Act, at: At): void {
  at(0.03, () => clockOn(act, nextTarget(act, 'boot-floor')))
  at(0.55, () => {
    const { repairId, gate } = nextTarget(act, 'boot-floor')
    takePhoto(act, {
      kind: 'section fitted',
      caption: 'Boot floor: new sheet cut and laid in',
      slate: 'Boot floor',
      serves: gateServes([repairId], gate, 'work'),
    })
  })
}

/** The gutter is sealed; its sealer cures for a day, and the painter asks whether it has to. */
function tellVelloran(act: Act, at: At): void {
  const repairId = repairIdOf(act.demo, 'gutter-r')
  passWithin(act, at, { key: 'gutter-r', gate: 'sealed', from: 0.05, to: 0.38 })
  at(0.85, () => {
    const context = { at: act.stage.now(), workshop: act.stage.workshop(), did: null }
    const curing = standing(gateHolds(carOf(act), repairId, 'primed', context)).find(
      ({ code }) => code === 'curing',
    )
    if (!curing) return
    send(act, 'askRelease', {
      repairId,
      gate: 'primed',
      code: 'curing',
      subject: curing.subject,
      reason: 'The sealer is touch dry and the booth is free this afternoon. May I prime?',
    })
  })
}

/** What the dip took off is primed again, and what it showed is photographed. */
function tellTamsel(act: Act, at: At): void {
  passWithin(act, at, { key: 'battery', gate: 'primed', from: 0.06, to: 0.5 })
  at(0.7, () => {
    const photo = takePhoto(act, {
      kind: 'pitted',
      caption: 'Pinholes along the left roof gutter',
      slate: 'Roof gutter, left',
      serves: [{ what: 'car' }],
    })
    send(act, 'addFinding', {
      findingId: findingIdSchema.parse(act.stage.id('finding')),
      repairId: repairIdOf(act.demo, 'gutter-l'),
      layerId: null,
      kind: 'corrosion',
      grade: 'holed',
      extent: 'pinholes every 20 to 30 mm over the whole length',
      needs: 'a new gutter; an estimate is made',
      attachments: [photo],
    })
  })
}

interface Passing {
  readonly key: string
  readonly gate: Gate
  /** Shares of the morning. */
  readonly from: number
  readonly to: number
}

/** One gate begun and passed in the morning; left out where the work has not come so far. */
function passWithin(act: Act, at: At, { key, gate, from, to }: Passing): void {
  let entryId: EntryId | null = null
  at(from, () => {
    const next = nextTarget(act, key)
    if (next.gate === gate) entryId = clockOn(act, next)
  })
  at(to, () => {
    if (entryId === null) return
    const repairIds = [repairIdOf(act.demo, key)]
    bringEvidence(act, repairIds, gate)
    clockOff(act, entryId)
    send(act, 'passGate', { repairIds, gate, did: [act.by], coat: null, note: '' })
  })
}

/** Welding or grinding on the first repair whose next gate is hot work: the wheel arch, if all went as it should. */
function hotWork(act: Act): { readonly begin: () => void; readonly stop: () => void } {
  let begun: { readonly target: GateTarget; readonly entryId: EntryId } | null = null
  return {
    begin: () => {
      const target = hotTarget(act)
      begun = { target, entryId: clockOn(act, target) }
    },
    stop: () => {
      if (begun === null) return
      const { repairId, gate } = begun.target
      const { name } = repairOf(act, repairId).plan
      takePhoto(act, {
        kind: gate === 'welded' ? 'spot welds' : 'section fitted',
        caption: `${name}: ${gate === 'welded' ? 'lip welded' : 'ground back'}`,
        slate: name,
        serves: gateServes([repairId], gate, 'work'),
      })
      clockOff(act, begun.entryId)
    },
  }
}

function hotTarget(act: Act): GateTarget {
  const wanted = nextTarget(act, 'arch-r')
  const others = act.demo.repairs.flatMap(({ key }) => {
    const repair = repairOf(act, repairIdOf(act.demo, key))
    return standsOpen(repair) && nextGate(repair) !== null ? [nextTarget(act, key)] : []
  })
  return [wanted, ...others].find((target) => isHot(act, target)) ?? wanted
}
