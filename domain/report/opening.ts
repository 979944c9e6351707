import { capital, LEAST_SAID_HOURS } from '../text/words.ts'
import { countDone } from './done.ts'
import { weekFindings } from './found.ts'
import { questionCount } from './needs.ts'
import { backOf, nextItems, waits } from './next.ts'
import { clause, sentence } from './sentences.ts'
import { dayOf, isChargedByHours, isInVisitWeek, type Telling, toldRepairs, weekFacts } from './telling.ts'
import { reworkCauses, weekHours, weekRework } from './week-hours.ts'

/** The first lines: what kind of week it was, and, when it was quiet, why. */
export function openingTexts(telling: Telling): readonly string[] {
  const lines = [arrivalText(telling), weekText(telling), endText(telling), pointerText(telling)]
  return lines.filter((text) => text !== '')
}

function arrivalText(telling: Telling): string {
  const { car, visit, say } = telling
  if (!isFirst(telling)) return ''
  const listed = [...car.repairs.values()].filter(
    ({ visitId, retired }) => visitId === visit.id && !retired,
  ).length
  return say.opening.first({
    isWarranty: visit.kind === 'warranty',
    day: dayOf(telling, visit.opened.happened),
    repairs: listed > 0 || toldRepairs(telling).length === 0 ? listed : null,
  })
}

const isFirst = ({ before, visit }: Telling): boolean => before?.visits.has(visit.id) !== true

function weekText(telling: Telling): string {
  const { opening } = telling.say
  const did = didTexts(telling)
  if (did.length > 0) return `${opening.did(did)}${reworkHint(telling)}`
  if (weekHours(telling) > 0) return opening.wentOn
  return quietText(telling)
}

function didTexts(telling: Telling): readonly string[] {
  const { opening, figures } = telling.say
  const { gates, repairs, tasks } = countDone(telling)
  const findings = weekFindings(telling).length
  const worked = weekHours(telling)
  const back = reopenedCount(telling)
  const hasTried = weekFacts(telling, 'fitUpRecorded').some(({ payload }) => payload.kind !== 'dry')
  return [
    ...(gates > 0 ? [opening.steps(gates, repairs)] : []),
    ...(tasks > 0 ? [opening.tasks(tasks)] : []),
    ...(hasTried && gates === 0 ? [opening.triedFit] : []),
    ...journeyTexts(telling),
    ...(back > 0 ? [opening.tookBack(back)] : []),
    ...(findings > 0 ? [opening.found(findings)] : []),
    ...(worked > 0 && isChargedByHours(telling) ? [opening.worked(figures.hours(worked))] : []),
  ]
}

function journeyTexts(telling: Telling): readonly string[] {
  const { opening } = telling.say
  const [hasGone, isBack] = [
    weekFacts(telling, 'shellSentAway').length > 0,
    weekFacts(telling, 'shellReturned').length > 0,
  ]
  if (hasGone) return [isBack ? opening.sentAwayAndBack : opening.sentAway]
  return isBack ? [opening.hadBack] : []
}

const reopenedCount = (telling: Telling): number =>
  weekFacts(telling, 'gateReopened').length + weekFacts(telling, 'taskReopened').length

/** Points to the reasons only where the report has some. */
function reworkHint(telling: Telling): string {
  if (weekRework(telling) < LEAST_SAID_HOURS) return ''
  const hasReasons =
    reopenedCount(telling) > 0 || (isChargedByHours(telling) && reworkCauses(telling).size > 0)
  const { redone, redoneWhy } = telling.say.opening
  return ` ${hasReasons ? redoneWhy : redone}`
}

/** A quiet week says why: the first reason that the facts give. */
function quietText(telling: Telling): string {
  const reason = quietReason(telling)
  if (reason === '') return ''
  return isFirst(telling) ? capital(reason) : telling.say.opening.quiet(reason)
}

/** With its full stop; begins small. Empty where what ended the visit says it. */
function quietReason(telling: Telling): string {
  const { visit, car, say } = telling
  const { opening } = say
  switch (visit.status) {
    case 'enquired':
      return opening.notAgreed
    case 'agreed':
      return opening.notBegun
    case 'paused':
      return opening.paused(dayOf(telling, visit.statusSince), pauseReason(telling))
    case 'finished':
      return isInVisitWeek(telling, visit.statusSince) ? '' : opening.readyToHandOver
    case 'delivered':
      return isInVisitWeek(telling, visit.statusSince) ? '' : opening.isFinished
    case 'not taken on':
      return ''
    case 'in work':
      break
  }
  const away = [...car.aways.values()].findLast(({ returned }) => returned === null)
  if (away !== undefined) return opening.away(away.what, backOf(telling, away.expected))
  const items = nextItems(telling)
  if (items.length === 0) return opening.nothingOpen
  if (items.some((item) => item.mayBeWorkedOn)) return opening.waitsItsTurn
  return waits(telling)[0]?.reason ?? opening.waits
}

/** A sentence, or nothing. */
function pauseReason(telling: Telling): string {
  const reason = weekFacts(telling, 'visitStatusSet').findLast(({ payload }) => payload.status === 'paused')
    ?.payload.reason
  return reason === undefined || clause(reason) === '' ? '' : sentence(reason)
}

function endText(telling: Telling): string {
  const { visit, say } = telling
  if (!isInVisitWeek(telling, visit.statusSince)) return ''
  const day = dayOf(telling, visit.statusSince)
  if (visit.status === 'finished') return say.opening.finished(day)
  return visit.status === 'delivered' ? say.opening.delivered(day) : ''
}

function pointerText(telling: Telling): string {
  const count = questionCount(telling)
  return count === 0 ? '' : telling.say.opening.decisions(count)
}
