import type { CarState, VisitState } from '../car.ts'
import { bandsStated } from '../estimate/stated-bands.ts'
import { fact, type NewFact } from '../facts.ts'
import type { BandsWhen } from '../facts/agreement-facts.ts'
import type { EstimateLine, WorkTarget } from '../facts/shapes.ts'
import type { LineId, RepairId, VisitId } from '../ids.ts'
import { GATES } from '../gates.ts'
import { isDone } from '../rules/standing.ts'
import { isSameTarget } from '../value/target.ts'
import { estimateFacts } from './decide-repair.ts'
import {
  currentVisit,
  findRepair,
  findVisit,
  firstRefusal,
  onCar,
  record,
  refuseIf,
  type CarContext,
  type Decider,
  type Refused,
} from './deciders.ts'
import { closeRefusal } from './close-as-found-refusal.ts'

type AgreementKind =
  | 'setEstimate'
  | 'takeHours'
  | 'acceptEstimate'
  | 'reviewEstimate'
  | 'closeAsFound'
  | 'issueReport'

export const agreementDeciders: { readonly [K in AgreementKind]: Decider<K> } = {
  setEstimate: onCar((payload, { car }) => {
    const visit = currentVisit(car)
    if (!visit.ok) return visit
    return (
      firstRefusal(
        refuseIf(
          visit.value.id !== payload.visitId,
          'not-now',
          'This is not the visit that is going on.',
          'Reload the car.',
        ),
        ...payload.lines.map((line) => lineRefusal(car, line, payload.lines, visit.value.lines)),
      ) ?? record(...estimateFacts(payload.visitId, payload.lines))
    )
  }),

  takeHours: onCar((payload, { car }) => {
    const found = findRepair(car, payload.repairId)
    if (!found.ok) return found
    const isBegun = GATES.some((gate) => isDone(found.value, gate))
    return (
      refuseIf(
        found.value.taken !== null,
        'already',
        `The hours of ${found.value.plan.name} are known to be taken from finished repairs.`,
        'Nothing to do.',
      ) ??
      refuseIf(
        isBegun,
        'not-now',
        `${found.value.plan.name} is begun: what its hours rested on stands.`,
        'Change its estimate lines instead.',
      ) ??
      record(fact('hoursTaken', payload))
    )
  }),

  acceptEstimate: onCar((payload, context) => {
    const { car } = context
    const visit = findVisit(car, payload.visitId)
    if (!visit.ok) return visit
    const lines = [
      ...payload.lineIds.map((id) => visit.value.lines.get(id)),
      ...payload.costIds.map((id) => visit.value.costs.get(id)),
    ]
    return (
      firstRefusal(
        refuseIf(lines.length === 0, 'bad-input', 'Nothing is chosen.', 'Choose what is accepted.'),
        refuseIf(
          lines.includes(undefined),
          'unknown',
          'A line of the estimate is not known.',
          'Reload the car.',
        ),
        refuseIf(
          lines.some((line) => line && line.payer !== payload.payer),
          'bad-input',
          `Not every line is paid by the ${payload.payer}.`,
          'Each payer accepts their own lines.',
        ),
        refuseIf(
          lines.every((line) => line && line.accepted !== null),
          'already',
          'These lines are accepted already.',
          'Nothing to do.',
        ),
      ) ??
      record(
        fact('estimateAccepted', payload),
        ...saidOf(context, payload.visitId, newlyAccepted(visit.value, payload.lineIds), 'accepted'),
      )
    )
  }),

  reviewEstimate: onCar((payload, context) => {
    const { car } = context
    const found = findRepair(car, payload.repairId)
    if (!found.ok) return found
    return (
      refuseIf(
        !isDone(found.value, 'assessed'),
        'not-now',
        `${found.value.plan.name} is not assessed yet.`,
        'Review the estimate once every layer is graded.',
      ) ??
      record(
        fact('estimateReviewed', payload),
        ...saidOf(context, car.currentVisit, new Set([payload.repairId]), 'assessed'),
      )
    )
  }),

  closeAsFound: onCar((payload, context) => {
    const found = findRepair(context.car, payload.repairId)
    if (!found.ok) return found
    return closeRefusal(found.value, payload, context) ?? record(fact('closedAsFound', payload))
  }),

  issueReport: onCar((payload, { car }) => {
    const visit = findVisit(car, payload.visitId)
    if (!visit.ok) return visit
    return (
      refuseIf(
        car.reports.has(payload.reportId),
        'already',
        'This report is issued already.',
        'Nothing to do.',
      ) ?? record(fact('reportIssued', payload))
    )
  }),
}

/** The repairs of lines that were not accepted before. */
const newlyAccepted = ({ lines }: VisitState, lineIds: readonly LineId[]): ReadonlySet<RepairId> =>
  new Set(
    lineIds.flatMap((id) => {
      const line = lines.get(id)
      return line?.accepted === null && line.target.kind === 'gate' ? [line.target.repairId] : []
    }),
  )

/** What the screens say of these repairs' hours now. */
const saidOf = (
  { car, learned, happened, workshop }: CarContext,
  visitId: VisitId | null,
  of: ReadonlySet<RepairId>,
  when: BandsWhen,
): readonly NewFact[] => {
  const visit = visitId === null ? undefined : car.visits.get(visitId)
  if (learned === null || visit === undefined || of.size === 0) return []
  const stated = bandsStated(car, visit, { of, when }, learned, { at: happened, workshop })
  return stated === null ? [] : [stated]
}

const lineRefusal = (
  car: CarState,
  line: EstimateLine,
  all: readonly EstimateLine[],
  known: ReadonlyMap<string, { readonly lineId: string; readonly target: WorkTarget }>,
): Refused | null => {
  const { target } = line
  const repair = target.kind === 'gate' ? car.repairs.get(target.repairId) : undefined
  const exists =
    target.kind === 'gate' ? repair !== undefined && repair.retired === null : car.tasks.has(target.taskId)
  const other = [...known.values(), ...all].some(
    (each) => each.lineId !== line.lineId && isSameTarget(each.target, target),
  )
  return firstRefusal(
    refuseIf(!exists, 'unknown', 'An estimate line is for something that is not known.', 'Reload the car.'),
    refuseIf(
      other,
      'already',
      'Two estimate lines are for the same gate or task.',
      'Change the line that is there.',
    ),
    refuseIf(
      target.kind === 'gate' && repair !== undefined && isDone(repair, target.gate),
      'not-now',
      `${target.kind === 'gate' ? target.gate : 'It'} is done; its agreed figure stands.`,
      'Raise a variation for more work, or reopen the gate.',
    ),
  )
}
