import type { RepairState } from '../car.ts'
import { gateOrder } from '../gates.ts'
import type { PersonId, RepairId } from '../ids.ts'
import { isClosed, isFinished } from '../rules/standing.ts'
import type { NameOf } from '../views/shared-views.ts'
import { joinWords } from '../text/words.ts'
import { inSentence } from '../views/work-words.ts'
import type { PhotoPlate, ReportBlock, ReportSection } from './owner-week-shapes.ts'
import { gateNotYet, gateWorks, passedWords } from './plain-words.ts'
import { clause, ended, sentence, series } from './sentences.ts'
import { dateWords, dayOf, isInVisitWeek, type Telling, toldRepairs, weekFacts } from './telling.ts'
import { workedOn, workersOn } from './week-hours.ts'

/** Gates passed, tasks done and journeys of the shell, each repair with its photos. */
export function doneSection(
  telling: Telling,
  plates: ReadonlyMap<RepairId, readonly PhotoPlate[]>,
): ReportSection | null {
  const repairs = toldRepairs(telling).flatMap((repair): readonly ReportBlock[] => {
    const texts = repairTexts(telling, repair)
    const shown = plates.get(repair.id) ?? []
    if (texts.length === 0 && shown.length === 0) return []
    return [{ kind: 'repair', title: repair.plan.name, texts, plates: shown }]
  })
  const texts = [...taskTexts(telling), ...journeyTexts(telling, telling.context.nameOf)]
  const blocks: readonly ReportBlock[] = [
    ...repairs,
    ...texts.map((text) => ({ kind: 'text', text }) as const),
  ]
  return blocks.length === 0 ? null : { heading: 'What we did', blocks }
}

/** The gates of a repair that were passed in the week and still are, in its order. */
export function passedInWeek(telling: Telling, repair: RepairState) {
  return gateOrder(repair.plan).flatMap((gate) => {
    const { done } = repair.gates[gate]
    return done?.kind === 'passed' && isInVisitWeek(telling, done.stamp.happened) ? [{ gate, done }] : []
  })
}

function repairTexts(telling: Telling, repair: RepairState): readonly string[] {
  const passed = passedInWeek(telling, repair)
  const days = Map.groupBy(passed, ({ done }) => dayOf(telling, done.stamp.happened))
  const told = [...days].map(
    ([day, steps]) =>
      `On ${day} we ${series(steps.map(({ gate, done }) => passedWords(repair, gate, done)))}.`,
  )
  return [
    ...(told.length > 0 ? [`${told.join(' ')}${outcome(telling, repair)}`] : []),
    ...(told.length === 0 && workedOn(telling).has(repair.id) ? [goesOn(repair)] : []),
    ...peopleTexts(telling, [...workersOn(telling, repair.id), ...passed.flatMap(({ done }) => done.did)]),
    ...notNeededTexts(telling, repair),
  ]
}

/** Only where the manager wants the technicians named. */
function peopleTexts({ choices, context }: Telling, people: readonly PersonId[]): readonly string[] {
  const names = [...new Set(people.map(context.nameOf))]
  return choices.names && names.length > 0 ? [`The work was done by ${series(names)}.`] : []
}

function outcome({ before }: Telling, repair: RepairState): string {
  const earlier = before?.repairs.get(repair.id)
  if (repair.closedAsFound !== null)
    return ' It is closed as found; what that means stands under ‘What you should know’.'
  if (isFinished(repair)) return ' It is finished.'
  return isClosed(repair) && !(earlier && isClosed(earlier)) ? ' It is closed now.' : ''
}

function goesOn(repair: RepairState): string {
  const next = gateOrder(repair.plan).find((gate) => repair.gates[gate].status === 'open')
  return next === undefined ? 'We worked on it.' : `We worked on it; ${gateNotYet[next]}.`
}

function notNeededTexts(telling: Telling, repair: RepairState): readonly string[] {
  return gateOrder(repair.plan).flatMap((gate) => {
    const { done } = repair.gates[gate]
    if (done?.kind !== 'not needed' || !isInVisitWeek(telling, done.stamp.happened)) return []
    return [ended(`${gateWorks[gate]} is not needed here: ${clause(done.reason, 'small')}`)]
  })
}

function taskTexts(telling: Telling): readonly string[] {
  const tasks = [...telling.car.tasks.values()].filter(({ visitId }) => visitId === telling.visit.id)
  const done = tasks.flatMap((task) =>
    task.status === 'passed' && task.done && isInVisitWeek(telling, task.done.stamp.happened)
      ? [
          `${inSentence(clause(task.plan.name))}${byWords(telling, [...workersOn(telling, task.id), ...task.done.did])} (${dayOf(telling, task.done.stamp.happened)})`,
        ]
      : [],
  )
  const going = tasks.filter((task) => task.status === 'open' && workedOn(telling).has(task.id))
  return [
    ...(done.length > 0 ? [`Work on the whole car: ${series(done)}.`] : []),
    ...(going.length > 0
      ? [
          `Work that goes on: ${series(going.map(({ id, plan }) => `${inSentence(clause(plan.name))}${byWords(telling, workersOn(telling, id))}`))}.`,
        ]
      : []),
  ]
}

const byWords = ({ choices, context }: Telling, people: readonly PersonId[]): string =>
  choices.names && people.length > 0 ? ` by ${joinWords([...new Set(people.map(context.nameOf))])}` : ''

function journeyTexts(telling: Telling, nameOf: NameOf): readonly string[] {
  return [...telling.car.aways.values()].flatMap(({ sent, returned, from, expected, what, firmId }) => [
    ...(isInVisitWeek(telling, sent.happened)
      ? [
          ended(
            `The shell went to ${nameOf(firmId)} on ${dateWords(telling, from)}: ${clause(what, 'small')}`,
          ) + (returned === null ? ` It is expected back on ${dateWords(telling, expected)}.` : ''),
        ]
      : []),
    ...(returned !== null && isInVisitWeek(telling, returned.happened)
      ? [
          `The shell came back from ${nameOf(firmId)} on ${dayOf(telling, returned.happened)}. ${sentence(returned.uncovered)}`.trim(),
        ]
      : []),
  ])
}

/** How many repairs, gates and tasks moved on; for the opening. */
export function countDone(telling: Telling): {
  readonly gates: number
  readonly repairs: number
  readonly tasks: number
} {
  const counts = toldRepairs(telling).map((repair) => passedInWeek(telling, repair).length)
  return {
    gates: counts.reduce((sum, count) => sum + count, 0),
    repairs: counts.filter((count) => count > 0).length,
    tasks: weekFacts(telling, 'taskSigned').length,
  }
}
