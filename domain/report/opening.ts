import { hours } from '../text/words.ts'
import { capital } from '../views/work-words.ts'
import { countDone } from './done.ts'
import { weekFindings } from './found.ts'
import { questionCount } from './needs.ts'
import { backWords, nextItems, waits } from './next.ts'
import { clause, counted, sentence, series } from './sentences.ts'
import { dayOf, isChargedByHours, isInVisitWeek, type Telling, toldRepairs, weekFacts } from './telling.ts'
import { reworkCauses, weekHours, weekRework } from './week-hours.ts'

/** The first lines: what kind of week it was, and, when it was quiet, why. */
export function openingTexts(telling: Telling): readonly string[] {
  const lines = [arrivalText(telling), weekText(telling), endText(telling), pointerText(telling)]
  return lines.filter((text) => text !== '')
}

function arrivalText(telling: Telling): string {
  const { car, visit } = telling
  if (!isFirst(telling)) return ''
  const what =
    visit.kind === 'warranty'
      ? 'This is our first report on the warranty visit'
      : 'This is our first report on this visit'
  const count = [...car.repairs.values()].filter(
    ({ visitId, retired }) => visitId === visit.id && !retired,
  ).length
  const began = `${what}, which began on ${dayOf(telling, visit.opened.happened)}.`
  if (count > 0) return `${began} ${capital(counted('repair', count))} ${count === 1 ? 'is' : 'are'} listed.`
  return toldRepairs(telling).length === 0 ? `${began} No repair is listed yet.` : began
}

const isFirst = ({ before, visit }: Telling): boolean => before?.visits.has(visit.id) !== true

function weekText(telling: Telling): string {
  const did = didTexts(telling)
  if (did.length > 0) return `This week we ${series(did)}.${reworkHint(telling)}`
  if (weekHours(telling) > 0) return 'This week the work went on, and nothing was finished in it.'
  return quietText(telling)
}

function didTexts(telling: Telling): readonly string[] {
  const { gates, repairs, tasks } = countDone(telling)
  const findings = weekFindings(telling).length
  const worked = weekHours(telling)
  const back = reopenedCount(telling)
  const hasTried = weekFacts(telling, 'fitUpRecorded').some(({ payload }) => payload.kind !== 'dry')
  return [
    ...(gates > 0 ? [`finished ${counted('step', gates)} on ${counted('repair', repairs)}`] : []),
    ...(tasks > 0 ? [`did ${counted('task', tasks)} on the whole car`] : []),
    ...(hasTried && gates === 0 ? ['tried how the panels fit'] : []),
    ...journeyTexts(telling),
    ...(back > 0 ? [`took back ${counted('step', back)} of the work`] : []),
    ...(findings > 0 ? [`found ${counted('thing', findings)} worth your attention`] : []),
    ...(worked > 0 && isChargedByHours(telling) ? [`worked ${hours(worked)}`] : []),
  ]
}

function journeyTexts(telling: Telling): readonly string[] {
  const [hasGone, isBack] = [
    weekFacts(telling, 'shellSentAway').length > 0,
    weekFacts(telling, 'shellReturned').length > 0,
  ]
  if (hasGone) return [isBack ? 'sent the shell away and had it back' : 'sent the shell away']
  return isBack ? ['had the shell back'] : []
}

const reopenedCount = (telling: Telling): number =>
  weekFacts(telling, 'gateReopened').length + weekFacts(telling, 'taskReopened').length

/** Points to the reasons only where the report has some. */
function reworkHint(telling: Telling): string {
  if (weekRework(telling) <= 0.05) return ''
  const hasReasons =
    reopenedCount(telling) > 0 || (isChargedByHours(telling) && reworkCauses(telling).size > 0)
  return hasReasons
    ? ' Some of it was work done again; we say below why.'
    : ' Some of it was work done again.'
}

/** A quiet week says why: the first reason that the facts give. */
function quietText(telling: Telling): string {
  const reason = quietReason(telling)
  if (reason === '') return ''
  return isFirst(telling) ? capital(reason) : `This week we did no work on your car: ${reason}`
}

/** With its full stop; begins small. Empty where what ended the visit says it. */
function quietReason(telling: Telling): string {
  const { visit, car } = telling
  switch (visit.status) {
    case 'enquired':
      return 'the visit is not agreed yet.'
    case 'agreed':
      return 'the visit is agreed, and the work has not begun.'
    case 'paused':
      return `it has been paused since ${dayOf(telling, visit.statusSince)}.${pauseReason(telling)}`
    case 'finished':
      return isInVisitWeek(telling, visit.statusSince)
        ? ''
        : 'the work is finished, and the car is ready to be handed over.'
    case 'delivered':
      return isInVisitWeek(telling, visit.statusSince) ? '' : 'the work is finished.'
    case 'in work':
      break
  }
  const away = [...car.aways.values()].findLast(({ returned }) => returned === null)
  if (away !== undefined)
    return `the shell is away (${clause(away.what, 'small')})${backWords(telling, away.expected)}.`
  const items = nextItems(telling)
  if (items.length === 0) return 'no work is left open on it.'
  if (items.some((item) => item.mayBeWorkedOn))
    return 'the work waits its turn, and nothing on the car itself holds it up.'
  return waits(telling)[0]?.reason ?? 'the work waits.'
}

function pauseReason(telling: Telling): string {
  const reason = weekFacts(telling, 'visitStatusSet').findLast(({ payload }) => payload.status === 'paused')
    ?.payload.reason
  return reason === undefined || clause(reason) === '' ? '' : ` ${sentence(reason)}`
}

function endText(telling: Telling): string {
  const { visit } = telling
  if (!isInVisitWeek(telling, visit.statusSince)) return ''
  const day = dayOf(telling, visit.statusSince)
  if (visit.status === 'finished')
    return `The work was finished on ${day}; the car is ready to be handed over.`
  if (visit.status === 'delivered')
    return `The car was handed over on ${day}. This is our last report on this visit.`
  return ''
}

function pointerText(telling: Telling): string {
  const count = questionCount(telling)
  if (count === 0) return ''
  return `${capital(counted('decision', count))} ${count === 1 ? 'waits' : 'wait'} for you: please read ‘What we need from you’.`
}
