import type { VariationState } from '../../domain/car.ts'
import type { Gate } from '../../domain/gates.ts'
import {
  costIdSchema,
  findingIdSchema,
  variationIdSchema,
  type AttachmentId,
  type RepairId,
} from '../../domain/ids.ts'
import { isDone } from '../../domain/rules/standing.ts'
import { localDateOf } from '../../domain/time/zone.ts'
import { carOf, repairIdOf, repairOf, send, takePhoto, type Act } from './act.ts'
import { visitIdOf } from './arrival.ts'
import type { DemoRepair, DemoVariation } from './demo-car.ts'
import type { Floor } from './floor.ts'

/** Puts to the payer what the demo wants put, and hears the answers that come today. */
export function seeToVariations(floor: Floor, act: Act, day: number): void {
  for (const repair of act.demo.repairs)
    if (repair.variation) seeTo(floor, act, repair, repair.variation, day)
}

function seeTo(floor: Floor, act: Act, { key }: DemoRepair, wanted: DemoVariation, day: number): void {
  const repairId = repairIdOf(act.demo, key)
  const variationId = variationIdSchema.parse(`demo-${act.demo.key}-variation-${key}`)
  const car = carOf(act)
  const raised = car.variations.get(variationId)
  const repair = car.repairs.get(repairId)
  if (!raised) {
    if (repair && isDone(repair, 'assessed') && day >= (wanted.from ?? day))
      raise(act, repairId, variationId, wanted)
    return
  }
  if (!wanted.answer) return
  if (raised.status === 'raised') {
    if (isDue(floor, raised, day, wanted.answer.after)) decide(act, repairId, raised, wanted.answer)
  } else if (raised.status === 'declined' && repair?.closedAsFound === null) {
    const { settles } = wanted.answer
    if (settles?.choice === 'closed as found') closeAsFound(act, repairId, raised, settles.protection)
  }
}

/** Answers come so many working days after the question. */
const isDue = ({ days, stage }: Floor, { raised }: VariationState, day: number, after: number): boolean =>
  localDateOf(raised.happened, stage.zone) <= days.date(day - after)

function raise(act: Act, repairId: RepairId, variationId: VariationState['id'], wanted: DemoVariation): void {
  const { stage, demo } = act
  const repair = repairOf(act, repairId)
  const attachments = photosOf(act, repairId, 'assessed')
  const findingId = findingIdSchema.parse(stage.id('finding'))
  const worst = [...repair.layers.values()].map(({ grade }) => grade)
  send(act, 'addFinding', {
    findingId,
    repairId,
    layerId: null,
    ...wanted.finding,
    grade: (['gone', 'holed', 'pitted'] as const).find((grade) => worst.includes(grade)) ?? 'surface',
    attachments,
  })
  send(act, 'raiseVariation', {
    variationId,
    visitId: visitIdOf(demo),
    payer: repair.payer,
    title: wanted.title,
    why: wanted.why,
    ifNot: wanted.ifNot,
    findings: [findingId],
    attachments,
    lines: linesOf(repairId, wanted.hours).map(({ target, hours }) => ({
      target,
      hours,
      low: hours * (hours > 0 ? 0.75 : 1.25),
      high: hours * (hours > 0 ? 1.5 : 0.5),
    })),
    costs: (wanted.costs ?? []).map((cost) => ({
      ...cost,
      costId: costIdSchema.parse(stage.id('cost')),
      repairId,
    })),
  })
}

/** The keys of the demo's tables of hours are gates. */
const linesOf = (repairId: RepairId, hours: DemoVariation['hours']) =>
  Object.entries(hours).map(([gate, value]) => ({
    target: { kind: 'gate' as const, repairId, gate: gate as Gate },
    hours: value,
  }))

const photosOf = (act: Act, repairId: RepairId, gate: Gate): AttachmentId[] =>
  [...carOf(act).attachments.values()].flatMap(({ id, serves }) =>
    serves.some((each) => each.what === 'gate' && each.repairId === repairId && each.gate === gate)
      ? [id]
      : [],
  )

function decide(
  act: Act,
  repairId: RepairId,
  { id, askedCosts }: VariationState,
  answer: NonNullable<DemoVariation['answer']>,
): void {
  const { decision, changed, how, note, settles } = answer
  send(act, 'decideVariation', {
    variationId: id,
    decision,
    changed:
      changed === undefined
        ? null
        : {
            lines: linesOf(repairId, changed),
            costs: askedCosts.map(({ costId, amount }) => ({ costId, amount })),
          },
    how,
    note,
  })
  if (settles && settles.choice !== 'closed as found')
    send(act, 'settleDeclined', { variationId: id, choice: settles.choice, reason: settles.reason })
}

/** Each layer is photographed as it is left; the manager signs for it. */
function closeAsFound(act: Act, repairId: RepairId, variation: VariationState, protection: string): void {
  const { plan } = repairOf(act, repairId)
  const attachments = plan.layers.map(({ layerId, name }) =>
    takePhoto(act, {
      kind: 'surface rust',
      caption: `${plan.name}: ${name} as left`,
      slate: plan.name,
      serves: [{ what: 'gate', repairId, gate: 'assessed', shows: 'as left', layerId }],
    }),
  )
  send(act, 'closeAsFound', {
    repairId,
    variationId: variation.id,
    attachments,
    protection,
    answer: variation.decided?.note ?? '',
    cautionShown: plan.loadBearing,
  })
}
