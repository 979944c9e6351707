import { hours, plural } from '../text/words.ts'
import { inSentence } from '../views/work-words.ts'
import type { ReportSection } from './owner-week-shapes.ts'
import { causeWords } from './plain-words.ts'
import { clause } from './sentences.ts'
import { dayOf, isChargedByHours, isInVisitWeek, type Telling, weekFacts } from './telling.ts'
import { weekRework } from './week-hours.ts'

/** Work taken back and done again, fits that were not good, parts sent back: said as it was, with its cause. */
export function troubleSection(telling: Telling): ReportSection | null {
  const items = [...reopenedTexts(telling), ...fitTexts(telling), ...partTexts(telling)]
  const rework = weekRework(telling)
  const said = rework > 0.05 && isChargedByHours(telling) ? [reworkText(rework)] : []
  if (items.length + said.length === 0) return null
  return {
    heading: 'What did not go to plan',
    blocks: [
      ...(items.length > 0 ? [{ kind: 'list', items } as const] : []),
      ...said.map((text) => ({ kind: 'text', text }) as const),
    ],
  }
}

const reworkText = (value: number): string =>
  `${hours(value)} of this week went into work that had been done before.`

function reopenedTexts(telling: Telling): readonly string[] {
  const gates = weekFacts(telling, 'gateReopened').flatMap((fact) => {
    const { repairId, gate, cause, reason } = fact.payload
    const repair = telling.car.repairs.get(repairId)
    if (repair === undefined) return []
    const again = repair.gates[gate].status === 'open' ? '' : ' It has been done again since.'
    return [
      `${repair.plan.name}: on ${day(telling, fact.happened)} we took back the gate ‘${gate}’, because ${causeWords[cause]} (${clause(reason)}).${again}`,
    ]
  })
  const tasks = weekFacts(telling, 'taskReopened').flatMap((fact) => {
    const task = telling.car.tasks.get(fact.payload.taskId)
    if (task === undefined) return []
    return [
      `${task.plan.name}: on ${day(telling, fact.happened)} we began it again, because ${causeWords[fact.payload.cause]} (${clause(fact.payload.reason)}).`,
    ]
  })
  return [...gates, ...tasks, ...takenBackAway(telling)]
}

/** What a treatment away undid: dipping strips primer and sealer. */
function takenBackAway(telling: Telling): readonly string[] {
  return weekFacts(telling, 'shellReturned').flatMap(({ payload }) => {
    if (payload.tookBack.length === 0) return []
    const repairs = new Set(payload.tookBack.map(({ repairId }) => repairId)).size
    return [
      `The treatment away undid work on ${plural('repair', repairs)} that must be done again: ${inSentence(clause(payload.reason))}.`,
    ]
  })
}

function fitTexts(telling: Telling): readonly string[] {
  return [...telling.car.fitGroups.values()].flatMap(({ plan, fitUps }) => {
    const failed = fitUps.filter(
      ({ kind, good, stamp }) => kind !== 'dry' && !good && isInVisitWeek(telling, stamp.happened),
    )
    const last = failed.at(-1)
    if (last === undefined) return []
    const note = clause(last.note)
    const good = fitUps.find(
      (fitUp) => fitUp.good && fitUp.kind !== 'dry' && fitUp.stamp.number > last.stamp.number,
    )
    const times = failed.length === 1 ? '' : `, the last of ${failed.length} times`
    return [
      `The fit of the ${inSentence(plan.name)} was not good on ${dayOf(telling, last.stamp.happened)}${times}${note === '' ? '' : `: ${note}`}.${good ? ` On ${dayOf(telling, good.stamp.happened)} it was good.` : ''}`,
    ]
  })
}

function partTexts(telling: Telling): readonly string[] {
  return weekFacts(telling, 'partMoved').flatMap(({ payload }) => {
    if (payload.state !== 'rejected') return []
    const name = telling.car.parts.get(payload.partId)?.name ?? 'a part'
    const reason = clause(payload.reason)
    return [`We did not accept a part, ${inSentence(name)}${reason === '' ? '' : `: ${reason}`}.`]
  })
}

const day = (telling: Telling, happened: string): string => dayOf(telling, Date.parse(happened))
