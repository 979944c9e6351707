import { LEAST_SAID_HOURS } from '../text/words.ts'
import type { ReportSection } from './owner-week-shapes.ts'
import { textBlocks } from './report-blocks.ts'
import { dayOf, isChargedByHours, isInVisitWeek, type Telling, weekFacts } from './telling.ts'
import { reworkCauses, weekRework } from './week-hours.ts'

/** Work taken back and done again, fits that were not good, parts sent back: said as it was, with its cause. */
export function troubleSection(telling: Telling): ReportSection | null {
  const items = [...reopenedTexts(telling), ...fitTexts(telling), ...partTexts(telling)]
  const rework = weekRework(telling)
  const said = rework >= LEAST_SAID_HOURS && isChargedByHours(telling) ? [reworkText(telling, rework)] : []
  if (items.length + said.length === 0) return null
  return {
    heading: telling.say.trouble.heading,
    blocks: [...(items.length > 0 ? [{ kind: 'list', items } as const] : []), ...textBlocks(said)],
  }
}

/** With the causes where they are known. */
function reworkText(telling: Telling, value: number): string {
  const { trouble, figures } = telling.say
  const causes = [...reworkCauses(telling)].filter(([, spent]) => spent >= LEAST_SAID_HOURS)
  return trouble.rework(
    figures.hours(value),
    causes.map(([cause, spent]) => [cause, figures.hours(spent)] as const),
  )
}

function reopenedTexts(telling: Telling): readonly string[] {
  const { trouble } = telling.say
  const gates = weekFacts(telling, 'gateReopened').flatMap((fact) => {
    const { repairId, gate, cause, reason } = fact.payload
    const repair = telling.car.repairs.get(repairId)
    if (repair === undefined) return []
    const { name } = repair.plan
    const isDoneAgain = repair.gates[gate].status !== 'open'
    const day = dayHappened(telling, fact.happened)
    return [trouble.gateTakenBack({ name, day, gate, cause, reason, isDoneAgain })]
  })
  const tasks = weekFacts(telling, 'taskReopened').flatMap((fact) => {
    const { taskId, cause, reason } = fact.payload
    const name = telling.car.tasks.get(taskId)?.plan.name
    if (name === undefined) return []
    return [trouble.taskTakenBack({ name, day: dayHappened(telling, fact.happened), cause, reason })]
  })
  return [...gates, ...tasks, ...takenBackAway(telling)]
}

/** What a treatment away undid: dipping strips primer and sealer. */
function takenBackAway(telling: Telling): readonly string[] {
  return weekFacts(telling, 'shellReturned').flatMap(({ payload }) => {
    if (payload.tookBack.length === 0) return []
    const repairs = new Set(payload.tookBack.map(({ repairId }) => repairId)).size
    return [telling.say.trouble.treatmentUndid(repairs, payload.reason)]
  })
}

function fitTexts(telling: Telling): readonly string[] {
  return [...telling.car.fitGroups.values()].flatMap(({ plan, fitUps }) => {
    const failed = fitUps.filter(
      ({ kind, good, stamp }) => kind !== 'dry' && !good && isInVisitWeek(telling, stamp.happened),
    )
    const last = failed.at(-1)
    if (last === undefined) return []
    const good = fitUps.find(
      (fitUp) => fitUp.good && fitUp.kind !== 'dry' && fitUp.stamp.number > last.stamp.number,
    )
    return [
      telling.say.trouble.badFit({
        name: plan.name,
        times: failed.length,
        day: dayOf(telling, last.stamp.happened),
        note: last.note,
        goodOn: good === undefined ? null : dayOf(telling, good.stamp.happened),
      }),
    ]
  })
}

function partTexts(telling: Telling): readonly string[] {
  return weekFacts(telling, 'partMoved').flatMap(({ payload }) => {
    if (payload.state !== 'rejected') return []
    const name = telling.car.parts.get(payload.partId)?.name ?? null
    return [telling.say.trouble.badPart(name, payload.reason)]
  })
}

const dayHappened = (telling: Telling, happened: string): string => dayOf(telling, Date.parse(happened))
