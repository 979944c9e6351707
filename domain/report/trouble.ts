import { hours } from '../text/words.ts'
import { inSentence } from '../views/work-words.ts'
import type { ReportSection } from './owner-week-shapes.ts'
import { causeWords, gateResults } from './plain-words.ts'
import { clause, counted, ended, series } from './sentences.ts'
import { dayOf, isChargedByHours, isInVisitWeek, type Telling, weekFacts } from './telling.ts'
import { reworkCauses, weekRework } from './week-hours.ts'

/** Work taken back and done again, fits that were not good, parts sent back: said as it was, with its cause. */
export function troubleSection(telling: Telling): ReportSection | null {
  const items = [...reopenedTexts(telling), ...fitTexts(telling), ...partTexts(telling)]
  const rework = weekRework(telling)
  const said = rework > 0.05 && isChargedByHours(telling) ? [reworkText(telling, rework)] : []
  if (items.length + said.length === 0) return null
  return {
    heading: 'What did not go to plan',
    blocks: [
      ...(items.length > 0 ? [{ kind: 'list', items } as const] : []),
      ...said.map((text) => ({ kind: 'text', text }) as const),
    ],
  }
}

/** With the causes where they are known. */
function reworkText(telling: Telling, value: number): string {
  const causes = [...reworkCauses(telling)].filter(([, spent]) => spent > 0.05)
  const [first] = causes
  const why =
    first === undefined
      ? ''
      : causes.length === 1
        ? `, because ${causeWords[first[0]]}`
        : `: ${series(causes.map(([cause, spent]) => `${hours(spent)} because ${causeWords[cause]}`))}`
  return `${hours(value)} of this week went into work that had been done before${why}.`
}

function reopenedTexts(telling: Telling): readonly string[] {
  const gates = weekFacts(telling, 'gateReopened').flatMap((fact) => {
    const { repairId, gate, cause, reason } = fact.payload
    const repair = telling.car.repairs.get(repairId)
    if (repair === undefined) return []
    const again = repair.gates[gate].status === 'open' ? '' : ' It has been done again since.'
    return [
      `${repair.plan.name}: on ${day(telling, fact.happened)} we took back ${gateResults[gate]}, because ${causeWords[cause]} (${clause(reason, 'small')}).${again}`,
    ]
  })
  const tasks = weekFacts(telling, 'taskReopened').flatMap((fact) => {
    const task = telling.car.tasks.get(fact.payload.taskId)
    if (task === undefined) return []
    return [
      `${task.plan.name}: on ${day(telling, fact.happened)} we began it again, because ${causeWords[fact.payload.cause]} (${clause(fact.payload.reason, 'small')}).`,
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
      ended(
        `The treatment away undid work on ${counted('repair', repairs)} that must be done again: ${clause(payload.reason, 'small')}`,
      ),
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
    const note = clause(last.note, 'small')
    const good = fitUps.find(
      (fitUp) => fitUp.good && fitUp.kind !== 'dry' && fitUp.stamp.number > last.stamp.number,
    )
    const day = dayOf(telling, last.stamp.happened)
    const when = failed.length === 1 ? `on ${day}` : `${timesWords(failed.length)}, the last time on ${day}`
    return [
      [
        ended(
          `The fit of the ${inSentence(plan.name)} was not good ${when}${note === '' ? '' : `: ${note}`}`,
        ),
        ...(good ? [goodText(day, dayOf(telling, good.stamp.happened))] : []),
      ].join(' '),
    ]
  })
}

const timesWords = (count: number): string => (count === 2 ? 'twice' : counted('time', count))

const goodText = (failed: string, good: string): string =>
  failed === good ? 'Later that day it was good.' : `On ${good} it was good.`

function partTexts(telling: Telling): readonly string[] {
  return weekFacts(telling, 'partMoved').flatMap(({ payload }) => {
    if (payload.state !== 'rejected') return []
    const name = telling.car.parts.get(payload.partId)?.name ?? 'a part'
    const reason = clause(payload.reason, 'small')
    return [ended(`We did not accept a part, ‘${clause(name)}’${reason === '' ? '' : `: ${reason}`}`)]
  })
}

const day = (telling: Telling, happened: string): string => dayOf(telling, Date.parse(happened))
