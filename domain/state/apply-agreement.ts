import type { CarDraft, Stamp, Variation } from '../car.ts'
import type { Fact, PayloadOf } from '../facts.ts'

/** Estimate, variations, declined work and issued reports. */
export const applyAgreementFact = (car: CarDraft, fact: Fact, stamp: Stamp): void => {
  switch (fact.kind) {
    case 'estimateSet':
      return setEstimate(car, fact.payload, stamp)
    // What was accepted before keeps its day, and so its rates and its plan.
    case 'estimateAccepted': {
      const lines = car.visits.get(fact.payload.visitId)?.lines
      for (const id of fact.payload.lineIds) {
        const line = lines?.get(id)
        if (line) line.accepted ??= stamp
      }
      const costs = car.visits.get(fact.payload.visitId)?.costs
      for (const id of fact.payload.costIds) {
        const cost = costs?.get(id)
        if (!cost) continue
        cost.accepted ??= stamp
        cost.wasAccepted = true
      }
      return
    }
    case 'estimateReviewed': {
      const repair = car.repairs.get(fact.payload.repairId)
      if (repair) repair.reviewed = stamp
      return
    }
    case 'bandsStated':
      return stateBands(car, fact.payload, stamp)
    case 'variationRaised': {
      const { variationId, lines, ...variation } = fact.payload
      car.variations.set(variationId, {
        id: variationId,
        ...variation,
        asked: lines,
        askedCosts: variation.costs,
        lines: lines.map(({ target, hours }) => ({ target, hours })),
        raised: stamp,
        status: 'raised',
        decided: null,
        expected: null,
        settled: null,
      })
      return
    }
    case 'variationDecided': {
      const variation = car.variations.get(fact.payload.variationId)
      if (!variation) return
      variation.status = fact.payload.decision
      const { how, note, changed } = fact.payload
      variation.decided = { ...stamp, how, note, changed: changed !== null }
      if (changed !== null) changeVariation(variation, changed)
      return
    }
    case 'declinedSettled': {
      const variation = car.variations.get(fact.payload.variationId)
      if (!variation) return
      variation.status = fact.payload.choice
      variation.settled = { ...stamp, reason: fact.payload.reason }
      return
    }
    case 'closedAsFound': {
      const { repairId, variationId, attachments, protection, answer } = fact.payload
      const repair = car.repairs.get(repairId)
      if (repair) repair.closedAsFound = { stamp, variationId, attachments, protection, answer }
      return
    }
    case 'reportIssued': {
      const { reportId: id, visitId, week, sha256, page, head, title, ...choices } = fact.payload
      car.reports.set(id, { id, visitId, week, sha256, page, choices, head, title, stamp })
      return
    }
    case 'costsSet':
      return setCosts(car, fact.payload)
    case 'costTakenOff':
      car.visits.get(fact.payload.visitId)?.costs.delete(fact.payload.costId)
      return
    case 'costSpent': {
      const { spendingId: id, ...spent } = fact.payload
      car.spendings.set(id, { id, ...spent, stamp })
      return
    }
    default:
      return
  }
}

/** What is said with an acceptance once the cavity is open is no longer said from outside. */
const stateBands = (car: CarDraft, { when, repairs }: PayloadOf<'bandsStated'>, { number }: Stamp): void => {
  for (const band of repairs) {
    const repair = car.repairs.get(band.repairId)
    if (!repair || (when === 'accepted' && repair.gates.opened.status !== 'open')) continue
    repair.stated.push({ when, number, band })
  }
}

/** Money that was asked for and not named in the answer is not agreed. */
const changeVariation = (
  variation: Variation,
  changed: NonNullable<PayloadOf<'variationDecided'>['changed']>,
): void => {
  variation.lines = changed.lines
  variation.costs = variation.costs.flatMap((cost) =>
    changed.costs.filter(({ costId }) => costId === cost.costId).map(({ amount }) => ({ ...cost, amount })),
  )
}

/** As with hours: a changed amount is put to its payer anew, and its baseline stays for ever. */
const setCosts = (car: CarDraft, payload: PayloadOf<'costsSet'>): void => {
  const costs = car.visits.get(payload.visitId)?.costs
  if (!costs) return
  for (const cost of payload.costs) {
    const known = costs.get(cost.costId)
    const same = known && known.amount === cost.amount && known.payer === cost.payer
    costs.set(cost.costId, {
      ...cost,
      baseline: known?.baseline ?? cost.amount,
      accepted: same ? known.accepted : null,
      wasAccepted: known?.wasAccepted ?? false,
    })
  }
}

/** A line whose figures change is put to its payer anew; its baseline stays for ever. */
const setEstimate = (car: CarDraft, payload: PayloadOf<'estimateSet'>, { by }: Stamp): void => {
  const lines = car.visits.get(payload.visitId)?.lines
  if (!lines) return
  for (const line of payload.lines) {
    const known = lines.get(line.lineId)
    const same = known && known.agreed === line.agreed && known.payer === line.payer
    lines.set(line.lineId, {
      ...line,
      baseline: known?.baseline ?? line,
      by: known === undefined ? by : known.by,
      accepted: same ? known.accepted : null,
      moved: known?.moved ?? 0,
    })
  }
}
