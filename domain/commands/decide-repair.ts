import type { CarState, RepairState } from '../car.ts'
import { fact, type NewFact } from '../facts.ts'
import type { EstimateLine, RepairPlan } from '../facts/shapes.ts'
import { eachGate, gateOrder, GATES, type Gate } from '../gates.ts'
import type { RepairId, VisitId } from '../ids.ts'
import { refuse } from '../refusal.ts'
import { ancestors, isClosed, isDone, isFinished, standsOpen } from '../rules/standing.ts'
import { gateLineId } from '../state/apply-repair.ts'
import { canonicalJson } from '../text/canonical-json.ts'
import { expectedHours } from '../value/estimated-hours.ts'
import { targetHours } from '../value/hours.ts'
import type { CommandPayload } from './command-shapes.ts'
import { clashRefusal, coverRefusal, graphWith } from './decide-links.ts'
import {
  currentVisit,
  findRepair,
  firstRefusal,
  onCar,
  record,
  refuseIf,
  unknownRepairs,
  type CarContext,
  type Decider,
  type Refused,
} from './deciders.ts'
import { movedAgreementRefusal } from './merge-refusals.ts'
import { planRefusal } from './plan-problems.ts'

type RepairKind = 'addRepair' | 'changeRepair' | 'applyType' | 'retireRepair' | 'splitRepair' | 'mergeRepairs'

export const repairDeciders: { readonly [K in RepairKind]: Decider<K> } = {
  addRepair: onCar((payload, context) => addRepair(payload, context)),
  changeRepair: onCar((payload, context) => {
    const found = findRepair(context.car, payload.repairId)
    if (!found.ok) return found
    return changeRefusal(found.value, payload.plan, context) ?? record(fact('repairChanged', payload))
  }),
  applyType: onCar((payload, context) => applyType(payload, context)),
  retireRepair: onCar((payload, { car }) => {
    const found = findRepair(car, payload.repairId)
    if (!found.ok) return found
    return (
      refuseIf(
        standsOpen(found.value),
        'not-now',
        `${found.value.plan.name} stands open.`,
        'Close it, or merge it into the repair that takes its work over.',
      ) ?? record(fact('repairRetired', payload))
    )
  }),
  splitRepair: onCar((payload, context) => splitRepair(payload, context)),
  mergeRepairs: onCar((payload, context) => mergeRepairs(payload, context)),
}

const addRepair: CarDeciderOf<'addRepair'> = (payload, context) => {
  const { covers, coveredBy, ...repair } = payload
  const visit = currentVisit(context.car)
  if (!visit.ok) return visit
  const links = [
    ...covers.map((under) => ({ over: repair.repairId, under })),
    ...coveredBy.map((over) => ({ over, under: repair.repairId })),
  ]
  const refused = firstRefusal(
    refuseIf(
      context.car.repairs.has(repair.repairId),
      'already',
      'This repair is known already.',
      'Reload the car.',
    ),
    planRefusal(repair.plan),
    ...coveredBy.map((over) => coverRefusal(context.car, over)),
    unknownRepairs(context.car, [...covers, ...coveredBy]),
    clashRefusal(graphWith(context.car, { added: [{ id: repair.repairId, plan: repair.plan }], links })),
  )
  if (refused) return refused
  return record(
    fact('repairAdded', repair),
    ...links.map((link) => fact('coverLinked', link)),
    ...estimateFacts(visit.value.id, linesOf(repair.repairId, repair.plan, repair.payer)),
  )
}

type CarDeciderOf<K extends RepairKind> = (
  payload: CommandPayload<K>,
  context: CarContext,
) => ReturnType<Decider<K>>

/** One line for each gate with hours, agreed at the expected value. */
const linesOf = (
  repairId: RepairId,
  plan: RepairPlan,
  payer: EstimateLine['payer'],
): readonly EstimateLine[] =>
  GATES.filter((gate) => plan.gates[gate].hours.longest > 0).map((gate) => {
    const { hours } = plan.gates[gate]
    return {
      lineId: gateLineId(repairId, gate),
      target: { kind: 'gate', repairId, gate },
      hours,
      agreed: roundHours(expectedHours(hours)),
      payer,
    }
  })

/** Agreed figures are kept to the hundredth of an hour. */
export const roundHours = (hours: number): number => Math.round(hours * 100) / 100

/** The workshop's own lines need nobody's answer: they are accepted as they are set. */
export const estimateFacts = (visitId: VisitId, lines: readonly EstimateLine[]): readonly NewFact[] => {
  if (lines.length === 0) return []
  const own = lines.filter((line) => line.payer === 'workshop').map((line) => line.lineId)
  return [
    fact('estimateSet', { visitId, lines: [...lines] }),
    ...(own.length > 0
      ? [
          fact('estimateAccepted', {
            visitId,
            payer: 'workshop',
            lineIds: own,
            costIds: [],
            how: 'visit',
            note: '',
          }),
        ]
      : []),
  ]
}

const changeRefusal = (repair: RepairState, plan: RepairPlan, context: CarContext): Refused | null => {
  const kept = new Set(plan.layers.map((layer) => layer.layerId))
  const lost = repair.plan.layers.find(
    (layer) => !kept.has(layer.layerId) && repair.layers.get(layer.layerId)?.graded,
  )
  const changed = GATES.find(
    (gate) =>
      isDone(repair, gate) && canonicalJson(plan.gates[gate]) !== canonicalJson(repair.plan.gates[gate]),
  )
  return firstRefusal(
    planRefusal(plan),
    refuseIf(
      lost !== undefined,
      'not-now',
      `The layer '${lost?.name}' has facts.`,
      'Keep it, or reopen the gates it stands on.',
    ),
    refuseIf(
      changed !== undefined,
      'not-now',
      `${changed} is done, and a done gate is never judged again.`,
      'Change only gates that are not done, or reopen it first.',
    ),
    refuseIf(
      plan.primedFirst !== repair.plan.primedFirst && (isDone(repair, 'sealed') || isDone(repair, 'primed')),
      'not-now',
      'Sealed or primed is done; their order cannot change now.',
      'Reopen them first.',
    ),
    clashRefusal(graphWith(context.car, { added: [{ id: repair.id, plan }], links: [] })),
  )
}

const applyType: CarDeciderOf<'applyType'> = ({ repairIds }, { car, workshop }) => {
  const facts: NewFact[] = []
  const added: { id: RepairId; plan: RepairPlan }[] = []
  for (const id of repairIds) {
    const found = findRepair(car, id)
    if (!found.ok) return found
    const repair = found.value
    const type = [...workshop.types.values()].find((each) => each.id === repair.typeId)
    if (!type)
      return refuse('unknown', `${repair.plan.name} has no type any more.`, 'Change the repair by itself.')
    const gates = eachGate((gate) => (isDone(repair, gate) ? repair.plan : type.plan).gates[gate])
    // Layers, zone and links are the repair's own.
    const plan = { ...repair.plan, gates } as RepairPlan
    const refused = planRefusal(plan)
    if (refused) return refused
    facts.push(fact('repairChanged', { repairId: id, plan, typeVersion: type.version, reason: '' }))
    added.push({ id, plan })
  }
  return clashRefusal(graphWith(car, { added, links: [] })) ?? record(...facts)
}

const splitRepair: CarDeciderOf<'splitRepair'> = (payload, context) => {
  const { car } = context
  const found = findRepair(car, payload.repairId)
  if (!found.ok) return found
  const repair = found.value
  const refused = firstRefusal(
    refuseIf(
      car.repairs.has(payload.newRepairId),
      'already',
      'The new repair is known already.',
      'Reload the car.',
    ),
    refuseIf(
      isClosed(repair) || isFinished(repair),
      'not-now',
      `${repair.plan.name} is closed.`,
      'Reopen it first, or add another repair.',
    ),
    closedAboveRefusal(car, repair),
    planRefusal(payload.plan),
    clashRefusal(
      graphWith(car, {
        added: [{ id: payload.newRepairId, plan: payload.plan, groupsLike: repair.id }],
        links: car.covers.flatMap(({ over, under }) => [
          ...(under === repair.id ? [{ over, under: payload.newRepairId }] : []),
          ...(over === repair.id ? [{ over: payload.newRepairId, under }] : []),
        ]),
      }),
    ),
  )
  if (refused) return refused
  const left = new Map(unspent(repair, context).map(({ gate, hours }) => [gate, hours] as const))
  // Every gate moves, if with no hours: its payer has agreed to this work already, wherever it is booked.
  const moves = GATES.map((gate) => ({ gate, hours: roundHours((left.get(gate) ?? 0) * payload.share) }))
  return record(fact('repairSplit', { ...payload, moves }))
}

/** Authorised hours of the gates not done, less what was spent on them. */
const unspent = (repair: RepairState, context: CarContext): readonly { gate: Gate; hours: number }[] =>
  gateOrder(repair.plan)
    .filter((gate) => !isDone(repair, gate))
    .map((gate) => {
      const target = { kind: 'gate' as const, repairId: repair.id, gate }
      const figures = targetHours(context.car, context.car.currentVisit, target, {
        at: context.now,
        workshop: context.workshop,
      })
      return { gate, hours: Math.max(0, figures.authorised - figures.spent) }
    })

/** Split or merged under welded metal, unfinished work would be hidden. */
const closedAboveRefusal = (car: CarState, from: RepairState): Refused | null => {
  const above = [...ancestors(car, from.id)].flatMap((id) => car.repairs.get(id) ?? []).find(isClosed)
  return refuseIf(
    above !== undefined,
    'held',
    `${above?.plan.name} covers ${from.plan.name} and is closed.`,
    `Reopen ${above?.plan.name} first.`,
  )
}

const mergeRepairs: CarDeciderOf<'mergeRepairs'> = (payload, context) => {
  const { car } = context
  const from = findRepair(car, payload.repairId)
  const into = findRepair(car, payload.into)
  if (!from.ok) return from
  if (!into.ok) return into
  const swap = (id: RepairId) => (id === payload.repairId ? payload.into : id)
  const links = car.covers.map(({ over, under }) => ({ over: swap(over), under: swap(under) }))
  const coversMore = car.covers.some((cover) => cover.over === payload.repairId)
  const moves = unspent(from.value, context).map((each) => ({ ...each, hours: roundHours(each.hours) }))
  const refused = firstRefusal(
    refuseIf(
      payload.repairId === payload.into,
      'bad-input',
      'A repair cannot be merged into itself.',
      'Choose another one.',
    ),
    refuseIf(isClosed(into.value), 'not-now', `${into.value.plan.name} is closed.`, 'Reopen it first.'),
    refuseIf(
      isClosed(from.value) && !isFinished(from.value),
      'not-now',
      `${from.value.plan.name} is closed and not finished.`,
      'Finish it, or reopen it first.',
    ),
    closedAboveRefusal(car, from.value),
    coversMore ? coverRefusal(car, payload.into) : null,
    clashRefusal(graphWith(car, { added: [], links, without: payload.repairId, groupsOf: payload.into })),
    movedAgreementRefusal(car, from.value, into.value, moves),
  )
  return refused ?? record(fact('repairsMerged', { ...payload, moves }))
}
