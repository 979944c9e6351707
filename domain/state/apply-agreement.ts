import type { CarDraft, Stamp } from '../car.ts'
import type { Fact, PayloadOf } from '../facts.ts'

/** Estimate, variations, declined work and issued reports. */
export const applyAgreementFact = (car: CarDraft, fact: Fact, stamp: Stamp): void => {
  switch (fact.kind) {
    case 'estimateSet':
      return setEstimate(car, fact.payload)
    case 'estimateAccepted': {
      const lines = car.visits.get(fact.payload.visitId)?.lines
      for (const id of fact.payload.lineIds) {
        const line = lines?.get(id)
        if (line) line.accepted = stamp
      }
      return
    }
    case 'estimateReviewed': {
      const repair = car.repairs.get(fact.payload.repairId)
      if (repair) repair.reviewed = stamp
      return
    }
    case 'variationRaised': {
      const { variationId, ...variation } = fact.payload
      car.variations.set(variationId, {
        id: variationId,
        ...variation,
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
      variation.decided = { ...stamp, how: fact.payload.how, note: fact.payload.note }
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
      const { reportId, visitId, week, sha256, head, title } = fact.payload
      car.reports.set(reportId, { id: reportId, visitId, week, sha256, head, title, stamp })
      return
    }
    default:
      return
  }
}

/** A line whose figures change is put to its payer anew; its baseline stays for ever. */
const setEstimate = (car: CarDraft, payload: PayloadOf<'estimateSet'>): void => {
  const lines = car.visits.get(payload.visitId)?.lines
  if (!lines) return
  for (const line of payload.lines) {
    const known = lines.get(line.lineId)
    const same = known && known.agreed === line.agreed && known.payer === line.payer
    lines.set(line.lineId, {
      ...line,
      baseline: known?.baseline ?? line,
      accepted: same ? known.accepted : null,
      moved: known?.moved ?? 0,
    })
  }
}
