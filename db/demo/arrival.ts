import { planFromType } from '../../domain/catalogue/type-plan.ts'
import type { RepairPlan, TaskPlan, WorkTarget } from '../../domain/facts/shapes.ts'
import { GATES } from '../../domain/gates.ts'
import {
  attachmentIdSchema,
  bookingIdSchema,
  dimensionIdSchema,
  edgeIdSchema,
  liftIdSchema,
  visitIdSchema,
  type VisitId,
} from '../../domain/ids.ts'
import { usualSettings } from '../../domain/usual-workshop.ts'
import { carIdOf, carOf, fitGroupIdOf, repairIdOf, send, taskIdOf, type Act } from './act.ts'
import { demoBayId, type DemoCar, type DemoRepair, type DemoTask } from './demo-car.ts'
import { demoParties, partyId } from './demo-people.ts'
import { gradeOutside } from './outside-grades.ts'
import type { WorkDays } from './work-days.ts'

export const visitIdOf = ({ key }: DemoCar): VisitId => visitIdSchema.parse(`demo-${key}-visit`)

/** The car comes in: owner, first photo, where it will stand when, repairs and tasks with their estimate. */
export function bringIn(act: Act, days: WorkDays): void {
  const { stage, demo, by } = act
  for (const key of demo.insurer ? [demo.owner, demo.insurer] : [demo.owner])
    stage.send('addParty', null, by, demoParties[key])
  const photo = stage.photo({
    kind: 'body colour',
    caption: [demo.name, `${demo.shellNumber}, as it came in`],
    bodyColour: demo.colour,
  })
  stage.send('addCar', null, by, {
    carId: carIdOf(act),
    shellNumber: demo.shellNumber,
    name: demo.name,
    body: demo.body,
    year: demo.year,
    visit: {
      visitId: visitIdOf(demo),
      kind: 'agreed',
      ownerId: partyId(demo.owner),
      insurerId: demo.insurer ? partyId(demo.insurer) : null,
      status: 'enquired',
      promised: days.date(demo.promised),
      priority: demo.priority,
      charge: typeof demo.charge === 'string' ? { by: demo.charge } : { by: 'capped', ...demo.charge },
    },
    photo: { attachmentId: attachmentIdSchema.parse(stage.id('attachment')), ...photo },
  })
  const atFirst = demo.repairs.filter(({ added }) => added === undefined)
  for (const repair of atFirst) addRepair(act, repair)
  for (const repair of atFirst) gradeOutside(act, repair)
  for (const task of demo.tasks) addTask(act, task)
  bookStays(act, days)
}

export function addRepair(act: Act, repair: DemoRepair): void {
  const { stage, demo } = act
  const type = [...stage.workshop().types.values()].find(({ id }) => id === `type-${repair.type}`)
  if (!type) throw new Error(`The catalogue has no type ${repair.type}.`)
  const repairId = repairIdOf(demo, repair.key)
  send(act, 'addRepair', {
    repairId,
    type: { typeId: type.id, version: type.version },
    plan: withCuring(planFromType(type.plan, { repairId, name: repair.name, zone: repair.zone }), repair),
    payer: repair.payer ?? 'owner',
    covers: repair.covers.map((key) => repairIdOf(demo, key)),
    coveredBy: [],
  })
}

function withCuring(plan: RepairPlan, { cures = {} }: DemoRepair): RepairPlan {
  const gates = { ...plan.gates }
  for (const gate of GATES) gates[gate] = { ...gates[gate], cureHours: cures[gate] ?? gates[gate].cureHours }
  return { ...plan, gates }
}

function addTask(act: Act, task: DemoTask): void {
  const { demo } = act
  const gates = (gate: 'opened' | 'painted'): WorkTarget[] =>
    demo.repairs
      .filter(({ added }) => added === undefined)
      .map(({ key }) => ({ kind: 'gate', repairId: repairIdOf(demo, key), gate }))
  const tasks: WorkTarget[] = (task.waitsFor ?? []).flatMap((key) =>
    demo.tasks.some((each) => each.key === key)
      ? [{ kind: 'task' as const, taskId: taskIdOf(demo, key) }]
      : [],
  )
  const [shortest, likely, longest] = task.hours.map((hours) => Math.round(hours * 4) / 4)
  const plan: TaskPlan = {
    name: task.name,
    hours: { shortest: shortest ?? 0, likely: likely ?? 0, longest: longest ?? 0 },
    skill: task.skill,
    people: task.people ?? 1,
    bayKind: task.bay,
    hotWork: false,
    cureHours: task.cureHours ?? 0,
    photos: task.photos,
    payer: 'owner',
    waitsFor: [...tasks, ...(task.afterRepairs ? gates('painted') : [])],
    holds: task.first ? gates('opened') : [],
  }
  send(act, 'addTask', { taskId: taskIdOf(demo, task.key), plan })
}

/** A booking for every bay that holds one car, up to the day before the next move. */
function bookStays(act: Act, days: WorkDays): void {
  const { demo, stage } = act
  demo.stays.forEach((stay, index) => {
    const end = stay.to ?? (demo.stays[index + 1]?.from ?? stay.from) - 1
    if (stay.bay !== 'yard')
      send(act, 'bookBay', {
        bookingId: bookingIdSchema.parse(stage.id('booking')),
        bayId: demoBayId[stay.bay],
        from: days.date(stay.from),
        to: days.date(end),
      })
  })
}

/** Before anything is cut: made safe, measured as found, and what must fit together is named. */
export function makeReady(act: Act): void {
  const { demo, stage } = act
  for (const [item, note] of SAFETY) send(act, 'setSafety', { item, stands: true, note })
  const stood = carOf(act).standing?.fixture ?? 'stands'
  for (const [name, kind, side, mm] of demo.dimensions)
    send(act, 'addDimension', {
      dimensionId: dimensionIdSchema.parse(stage.id('dimension')),
      name,
      kind,
      side,
      limitMm: kind === 'datum' ? usualSettings.datumLimitMm : usualSettings.apertureLimitMm,
      mm,
      stood,
      doorsHung: false,
    })
}

const SAFETY = [
  ['battery', 'Battery out and on the shelf'],
  ['fuel', 'Tank and lines out, openings plugged'],
  ['bracing', 'Braced across the openings'],
] as const

/** By the manager: a lift of the support hold, where there is one, comes before the groups that need it. */
export function nameFits(act: Act): void {
  const { demo, stage } = act
  if (demo.lift)
    send(act, 'liftSupport', {
      liftId: liftIdSchema.parse(stage.id('lift')),
      repairIds: demo.lift.repairs.map((key) => repairIdOf(demo, key)),
      how: demo.lift.how,
    })
  for (const group of demo.groups)
    send(act, 'setFitGroup', {
      groupId: fitGroupIdOf(demo, group.key),
      name: group.name,
      members: group.members.map((key) => repairIdOf(demo, key)),
      hungParts: [...group.hungParts],
      edges: group.edges.map(([name, nominalMm, toleranceMm]) => ({
        edgeId: edgeIdSchema.parse(stage.id('edge')),
        name,
        nominalMm,
        toleranceMm,
        flushToleranceMm: usualSettings.flushToleranceMm,
      })),
    })
}

/** The estimate is accepted, or as much of it as the owner wants to decide on now, and work may begin. */
export function acceptEstimate(act: Act): void {
  const { demo } = act
  const visitId = visitIdOf(demo)
  const lines = [...(carOf(act).visits.get(visitId)?.lines.values() ?? [])]
  const isWanted = (target: WorkTarget) =>
    demo.accepts === 'all' ||
    (target.kind === 'gate'
      ? target.gate === 'opened' || target.gate === 'assessed'
      : ['strip', 'parts'].some((key) => target.taskId === taskIdOf(demo, key)))
  for (const payer of ['owner', 'insurer'] as const) {
    const lineIds = lines
      .filter((line) => line.payer === payer && isWanted(line.target))
      .map(({ lineId }) => lineId)
    const note = payer === 'insurer' ? 'Claim accepted.' : 'Signed the estimate.'
    if (lineIds.length > 0)
      send(act, 'acceptEstimate', { visitId, payer, lineIds, costIds: [], how: 'letter', note })
  }
  send(act, 'setVisitStatus', { visitId, status: 'in work', reason: '' })
}
