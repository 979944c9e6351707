import { standingFaults } from '../rules/standing.ts'
import type { ReportBlock, ReportSection } from './owner-week-shapes.ts'
import { dayOf, isInVisitWeek, type Telling, toldRepairs, weekFacts } from './telling.ts'

/** Checks set aside, metal left as found, faults that stand, work that is stopped: named plainly, never softened. */
export function knowSection(telling: Telling): ReportSection | null {
  const items = [
    ...stoppedTexts(telling),
    ...faultTexts(telling),
    ...closedAsFoundTexts(telling),
    ...releaseTexts(telling),
  ]
  const blocks: readonly ReportBlock[] = [{ kind: 'list', items }]
  return items.length === 0 ? null : { heading: telling.say.know.heading, blocks }
}

function stoppedTexts({ car, visit, say }: Telling): readonly string[] {
  return [...car.variations.values()]
    .filter(({ visitId, status }) => visitId === visit.id && status === 'stopped')
    .map(({ title, settled }) => say.know.stopped(title, settled?.reason ?? ''))
}

function faultTexts(telling: Telling): readonly string[] {
  const { car, say } = telling
  const told = new Set(toldRepairs(telling).map(({ id }) => id))
  return standingFaults(car)
    .filter(({ repairId, otherId }) => told.has(repairId) || told.has(otherId))
    .flatMap(({ kind, repairId, otherId }) => {
      const [one, other] = [car.repairs.get(repairId), car.repairs.get(otherId)]
      if (one === undefined || other === undefined) return []
      const [name, otherName] = [one.plan.name, other.plan.name]
      return [
        kind === 'closed over' ? say.know.closedOver(name, otherName) : say.know.bothOpen(name, otherName),
      ]
    })
}

/** Told in full in the week it was done, and named in every later report of the visit. */
function closedAsFoundTexts(telling: Telling): readonly string[] {
  const { know } = telling.say
  return toldRepairs(telling).flatMap(({ plan, payer, closedAsFound }) => {
    if (closedAsFound === null) return []
    const { stamp, protection, answer } = closedAsFound
    const { name, loadBearing: isLoadBearing } = plan
    const day = dayOf(telling, stamp.happened)
    return [
      isInVisitWeek(telling, stamp.happened)
        ? know.closedAsFound({ name, day, payer, answer, protection, isLoadBearing })
        : know.wasClosedAsFound(name, day),
    ]
  })
}

function releaseTexts(telling: Telling): readonly string[] {
  return weekFacts(telling, 'holdReleased').flatMap(({ payload, happened }) => {
    const { repairId, code, gate, reason } = payload
    const name = telling.car.repairs.get(repairId)?.plan.name
    if (name === undefined) return []
    const day = dayOf(telling, Date.parse(happened))
    return [telling.say.know.setAside({ name, day, code, gate, reason })]
  })
}
