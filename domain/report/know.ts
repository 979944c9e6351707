import { isFinished, standingFaults } from '../rules/standing.ts'
import type { ReportBlock, ReportSection } from './owner-week-shapes.ts'
import { checkWords, gateResults } from './plain-words.ts'
import { clause, ended, sentence } from './sentences.ts'
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
  return items.length === 0 ? null : { heading: 'What you should know', blocks }
}

function stoppedTexts({ car, visit }: Telling): readonly string[] {
  return [...car.variations.values()]
    .filter(({ visitId, status }) => visitId === visit.id && status === 'stopped')
    .map(({ title, settled }) =>
      ended(`Work on ‘${clause(title)}’ has stopped: ${clause(settled?.reason ?? '', 'small')}`),
    )
}

function faultTexts(telling: Telling): readonly string[] {
  const told = new Set(toldRepairs(telling).map(({ id }) => id))
  return standingFaults(telling.car)
    .filter(({ repairId, otherId }) => told.has(repairId) || told.has(otherId))
    .map(({ repairId, otherId, words }) => {
      const [over, under] = [telling.car.repairs.get(repairId), telling.car.repairs.get(otherId)]
      if (over && under && !isFinished(under) && words.startsWith('closed over'))
        return `${over.plan.name} is closed although ${under.plan.name} behind it is not finished. It must be opened again.`
      return sentence(words.split(';')[0] ?? words)
    })
}

/** Told in full in the week it was done, and named in every later report of the visit. */
function closedAsFoundTexts(telling: Telling): readonly string[] {
  return toldRepairs(telling).flatMap(({ plan, payer, closedAsFound }) => {
    if (closedAsFound === null) return []
    const { stamp, protection, answer } = closedAsFound
    if (!isInVisitWeek(telling, stamp.happened))
      return [`${plan.name} was closed as found on ${dayOf(telling, stamp.happened)}.`]
    return [
      [
        `${plan.name} was closed as found on ${dayOf(telling, stamp.happened)}: the damage is still there.`,
        ended(`${payer === 'insurer' ? 'The insurer’s' : 'Your'} answer was: ${clause(answer, 'small')}`),
        ended(`What could be done to protect it: ${clause(protection, 'small')}`),
        ...(plan.loadBearing ? [LOAD_BEARING_LEFT] : []),
      ].join(' '),
    ]
  })
}

const LOAD_BEARING_LEFT =
  'It is load-bearing metal: have it inspected before the car is driven, and follow the local rules.'

function releaseTexts(telling: Telling): readonly string[] {
  return weekFacts(telling, 'holdReleased').flatMap(({ payload, happened }) => {
    const repair = telling.car.repairs.get(payload.repairId)
    if (repair === undefined) return []
    const day = dayOf(telling, Date.parse(happened))
    return [
      ended(
        `${repair.plan.name}: on ${day} the manager set aside a check (${checkWords[payload.code]}) before ${gateResults[payload.gate]}. The reason: ${clause(payload.reason, 'small')}`,
      ),
    ]
  })
}
