import { hours, plural } from '../text/words.ts'
import { capital, inSentence } from '../views/work-words.ts'
import { countDone } from './done.ts'
import { weekFindings } from './found.ts'
import { openQuestions } from './needs.ts'
import { nextItems, waitTexts } from './next.ts'
import { clause, series } from './sentences.ts'
import { dateWords, dayOf, isChargedByHours, isInVisitWeek, type Telling, weekFacts } from './telling.ts'
import { weekHours, weekRework } from './week-hours.ts'

/** The first lines: what kind of week it was, and, when it was quiet, why. */
export function openingTexts(telling: Telling): readonly string[] {
  const lines = [arrivalText(telling), weekText(telling), endText(telling), pointerText(telling)]
  return lines.filter((text) => text !== '')
}

function arrivalText({ before, visit, ...telling }: Telling): string {
  if (before?.visits.has(visit.id)) return ''
  const what =
    visit.kind === 'warranty'
      ? 'This is our first report on the warranty visit'
      : 'This is our first report on this visit'
  const count = [...telling.car.repairs.values()].filter(
    ({ visitId, retired }) => visitId === visit.id && !retired,
  ).length
  const list =
    count === 0
      ? 'No repair is listed yet'
      : count === 1
        ? 'One repair is listed'
        : `${count} repairs are listed`
  return `${what}, which began on ${dayOf(telling, visit.opened.happened)}. ${list}.`
}

function weekText(telling: Telling): string {
  const { gates, repairs, tasks } = countDone(telling)
  const findings = weekFindings(telling).length
  const worked = weekHours(telling)
  const did = [
    ...(gates > 0 ? [`passed ${plural('gate', gates)} on ${plural('repair', repairs)}`] : []),
    ...(tasks > 0 ? [`did ${plural('task', tasks)} on the whole car`] : []),
    ...(findings > 0
      ? [`found ${findings === 1 ? 'one thing' : `${findings} things`} worth your attention`]
      : []),
    ...(worked > 0 && isChargedByHours(telling) ? [`worked ${hours(worked)}`] : []),
  ]
  if (did.length > 0) return `This week we ${series(did)}.${reworkHint(telling)}`
  if (worked > 0) return 'This week the work went on, and nothing was finished in it.'
  return quietText(telling)
}

const reworkHint = (telling: Telling): string =>
  weekRework(telling) > 0.05 ? ' Some of it was work done again; we say below why.' : ''

/** A quiet week says why: the first reason that the facts give. */
function quietText(telling: Telling): string {
  const { visit, car } = telling
  const said = 'This week we did no work on your car'
  switch (visit.status) {
    case 'enquired':
      return `${said}: the visit is not agreed yet.`
    case 'agreed':
      return `${said}: the visit is agreed, and the work has not begun.`
    case 'paused':
      return `${said}: it has been paused since ${dayOf(telling, visit.statusSince)}${pauseReason(telling)}.`
    case 'finished':
    case 'delivered':
      return isInVisitWeek(telling, visit.statusSince) ? '' : `${said}: the work is finished.`
    case 'in work':
      break
  }
  const away = [...car.aways.values()].findLast(({ returned }) => returned === null)
  if (away !== undefined)
    return `${said}: the shell is away (${clause(away.what)}) and expected back on ${dateWords(telling, away.expected)}.`
  if (nextItems(telling).length === 0) return `${said}: no work is left open on it.`
  if (nextItems(telling).some((item) => item.mayBeWorkedOn))
    return `${said}. Nothing on the car itself holds the work up: it waits its turn.`
  const [reason] = waitTexts(telling)
  return reason === undefined ? `${said}.` : `${said}, because it waits. ${capital(reason)}`
}

function pauseReason(telling: Telling): string {
  const reason = weekFacts(telling, 'visitStatusSet').findLast(({ payload }) => payload.status === 'paused')
    ?.payload.reason
  return reason === undefined || clause(reason) === '' ? '' : `: ${inSentence(clause(reason))}`
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
  const count = openQuestions(telling).length
  if (count === 0) return ''
  return count === 1
    ? 'One decision waits for you: please read ‘What we need from you’.'
    : `${count} decisions wait for you: please read ‘What we need from you’.`
}
