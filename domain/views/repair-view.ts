import type { CarState, EntryState, RepairState } from '../car.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import type { Gate } from '../gates.ts'
import type { RepairId } from '../ids.ts'
import { dewPointC, judgeConditions } from '../measure/dew-point.ts'
import { gateAsks } from '../rules/asks.ts'
import { cautionsFor } from '../rules/cautions.ts'
import { groupsOf } from '../rules/fit-holds.ts'
import { coveredBy, coversOf } from '../rules/standing.ts'
import { joinWords } from '../text/words.ts'
import { targetHours } from '../value/hours.ts'
import { carHeader } from './car-header.ts'
import { clockView, openEntries, watchView } from './clock-views.ts'
import { dimensionViews } from './dimension-view.ts'
import { entryViews } from './entry-view.ts'
import { fitGroupView } from './fit-group-view.ts'
import { isStanding, skillHoldViews } from './hold-view.ts'
import { leftView } from './left-view.ts'
import { photosByRepair, photoView } from './photo-view.ts'
import { figuresVisit, type NextGate, nextGateOf, repairCard } from './repair-card.ts'
import { sectionView } from './section-view.ts'
import { findingView, variationView } from './variation-view.ts'
import { createViewContext, stampName, type ViewContext, type ViewInput } from './view-context.ts'
import type { RepairView } from './view-shapes.ts'
import { repairName, zoneWords } from './work-words.ts'

/** One repair with its next gate; null when the car has no such repair. */
export function repairView({
  car,
  repairId,
  ...input
}: ViewInput & { readonly car: CarState; readonly repairId: RepairId }): RepairView | null {
  const repair = car.repairs.get(repairId)
  if (repair === undefined) return null
  const context = createViewContext(input)
  const { nameOf } = context
  const next = nextGateOf(car, repair, context)
  const card = repairCard(car, repair, context, next)
  const photos = (photosByRepair(car).get(repairId) ?? []).map((photo) => photoView(car, photo, nameOf))
  const open = openEntries(car)
  const isOnIt = (entry: EntryState): boolean => isOn(entry, repairId)
  return {
    car: carHeader(car, context),
    repair: card,
    section: sectionView(car, repair),
    visitId: repair.visitId,
    next: nextView(car, repair, next, context),
    gates: card.marks.map((mark) => gateView(car, repair, mark, photos, context)),
    covers: [
      ...coveredBy(car, repairId).map((id) => ({
        id,
        name: repairName(car, id),
        direction: 'covers' as const,
      })),
      ...coversOf(car, repairId).map((id) => ({
        id,
        name: repairName(car, id),
        direction: 'covered by' as const,
      })),
    ],
    fitGroups: groupsOf(car, repairId).map((group) => fitGroupView(car, group, context)),
    dimensions: dimensionViews(car, context),
    conditions: conditionViews(car, repair, context),
    welds: weldViews(repair),
    parts: [...car.parts.values()]
      .filter((part) => part.repairId === repairId)
      .map(({ id, name, gate, state, expected, reason }) => ({ id, name, gate, state, expected, reason })),
    findings: [...car.findings.values()]
      .filter((finding) => finding.repairId === repairId)
      .map((finding) => findingView(car, finding, context)),
    photos: photos.toReversed(),
    clocks: open.running.filter(isOnIt).flatMap((entry) => clockView(car, entry, context)),
    watches: open.watched.filter(isOnIt).flatMap((entry) => watchView(car, entry, context)),
    entries: entryViews(car, [...car.entries.values()].filter(isOnIt), context),
    variations: [...car.variations.values()]
      .filter(({ lines }) => lines.some(({ target }) => isOfRepair(target, repairId)))
      .map((variation) => variationView(car, variation, context)),
    zoneWords: zoneWords(repair.plan.zone),
    plan: repair.plan,
  }
}

function nextView(
  car: CarState,
  repair: RepairState,
  { gate, holds }: NextGate,
  context: ViewContext,
): RepairView['next'] {
  if (gate === null) return null
  const { skill, bayKind, people, hotWork, hours, asks } = repair.plan.gates[gate]
  return {
    gate,
    skill,
    bayKind,
    people,
    hotWork,
    hours,
    asks: gateAsks(car, repair.id, gate),
    holds,
    skillHolds: skillHoldViews(car, repair, gate, context),
    mayPass: !holds.some(isStanding),
    cautions: cautionsFor(repair.plan, gate),
    secondSignature: asks.secondSignature,
  }
}

type GateView = RepairView['gates'][number]

function gateView(
  car: CarState,
  repair: RepairState,
  mark: GateView['mark'],
  photos: RepairView['photos'],
  context: ViewContext,
): GateView {
  const { gate } = mark
  const { done, reopened, status } = repair.gates[gate]
  const { hours, skill, bayKind, hotWork, cureHours } = repair.plan.gates[gate]
  const target = { kind: 'gate' as const, repairId: repair.id, gate }
  return {
    gate,
    mark,
    plan: { hours, skill, bayKind, hotWork, cureHours },
    hours: targetHours(car, figuresVisit(car, repair, context), target, context),
    left: leftView(car, target, context),
    note: noteOf(done),
    photos: photos.filter(({ serves }) =>
      serves.some((each) => each.repairId === repair.id && each.gate === gate),
    ),
    number: done?.stamp.number ?? null,
    reopenedWhy: status === 'open' && reopened !== null ? reopened.reason : null,
  }
}

/** The signer's note, or why the gate was not needed. */
function noteOf(done: RepairState['gates'][Gate]['done']): string {
  if (done === null) return ''
  return done.kind === 'passed' ? done.note : done.reason
}

function conditionViews(car: CarState, repair: RepairState, context: ViewContext): RepairView['conditions'] {
  return car.conditions
    .filter(({ repairIds }) => repairIds.includes(repair.id))
    .flatMap(({ gate, airC, humidityPercent, steelC, stamp }) => {
      const dewPoint = dewPointC(airC, humidityPercent)
      if (!dewPoint.ok) return []
      const limits = repair.plan.gates[gate].asks.conditions ?? context.workshop.settings.conditions
      const { inside, problems } = judgeConditions({ airC, humidityPercent, steelC }, limits)
      return [
        {
          at: stamp.happened,
          by: stampName(stamp, context.nameOf),
          gate,
          airC,
          humidityPercent,
          steelC,
          dewPointC: dewPoint.value,
          marginC: steelC - dewPoint.value,
          inside,
          words: inside ? 'inside the limits' : joinWords(problems),
        },
      ]
    })
    .toReversed()
}

/** The last count since welded was reopened. */
function weldViews(repair: RepairState): RepairView['welds'] {
  const { evidenceFloor } = repair.gates.welded
  const last = repair.welds.findLast(({ stamp }) => stamp.number > evidenceFloor)
  return repair.plan.welds.map(({ jointId, name, kind, planned }) => {
    const done = last?.welds.find((weld) => weld.jointId === jointId)?.done ?? 0
    return { jointId, name, kind, planned, done }
  })
}

const isOn = ({ on }: EntryState, repairId: RepairId): boolean =>
  on.kind === 'work' && on.targets.some((target) => isOfRepair(target, repairId))

const isOfRepair = (target: WorkTarget, repairId: RepairId): boolean =>
  target.kind === 'gate' && target.repairId === repairId
