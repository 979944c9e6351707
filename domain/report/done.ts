import type { GateDone, RepairState } from '../car.ts'
import { type Gate, gateOrder } from '../gates.ts'
import type { PersonId, RepairId } from '../ids.ts'
import type { PassedGate } from '../language/owner-language.ts'
import { isClosed, isFinished } from '../rules/standing.ts'
import type { PhotoPlate, ReportBlock, ReportSection } from './owner-week-shapes.ts'
import { textBlocks } from './report-blocks.ts'
import { sentence } from './sentences.ts'
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
  const texts = [...taskTexts(telling), ...journeyTexts(telling)]
  const blocks: readonly ReportBlock[] = [...repairs, ...textBlocks(texts)]
  return blocks.length === 0 ? null : { heading: telling.say.done.heading, blocks }
}

/** The gates of a repair that were passed in the week and still are, in its order. */
export function passedInWeek(telling: Telling, repair: RepairState) {
  return gateOrder(repair.plan).flatMap((gate) => {
    const { done } = repair.gates[gate]
    return done?.kind === 'passed' && isInVisitWeek(telling, done.stamp.happened) ? [{ gate, done }] : []
  })
}

function repairTexts(telling: Telling, repair: RepairState): readonly string[] {
  const { say } = telling
  const passed = passedInWeek(telling, repair)
  const days = Map.groupBy(passed, ({ done }) => dayOf(telling, done.stamp.happened))
  const told = [...days].map(([day, steps]) =>
    say.done.onDay(
      day,
      steps.map(({ gate, done }) => passedGate(repair, gate, done)),
    ),
  )
  return [
    ...(told.length > 0 ? [[...told, ...outcome(telling, repair)].join(' ')] : []),
    ...(told.length === 0 && workedOn(telling).has(repair.id) ? [goesOn(telling, repair)] : []),
    ...peopleTexts(telling, [...workersOn(telling, repair.id), ...passed.flatMap(({ done }) => done.did)]),
    ...notNeededTexts(telling, repair),
  ]
}

type Passed = Extract<GateDone, { readonly kind: 'passed' }>

const passedGate = (repair: RepairState, gate: Gate, { asked, coat }: Passed): PassedGate => ({
  gate,
  drainsAsked: asked.drains,
  hasManyLayers: repair.layers.size > 1,
  metal: metalOf(repair),
  coat,
})

function metalOf({ layers }: RepairState): PassedGate['metal'] {
  const decisions = new Set([...layers.values()].map(({ decision }) => decision))
  if (decisions.has('patch') || decisions.has('replace')) return 'new'
  return decisions.has('treat') ? 'treated' : 'kept'
}

/** Only where the manager wants the technicians named. */
function peopleTexts(telling: Telling, people: readonly PersonId[]): readonly string[] {
  const names = namesOf(telling, people)
  return names.length > 0 ? [telling.say.done.people(names)] : []
}

const namesOf = ({ choices, context }: Telling, people: readonly PersonId[]): readonly string[] =>
  choices.names ? [...new Set(people.map(context.nameOf))] : []

function outcome({ before, say }: Telling, repair: RepairState): readonly string[] {
  const earlier = before?.repairs.get(repair.id)
  if (repair.closedAsFound !== null) return [say.done.closedAsFound]
  if (isFinished(repair)) return [say.done.isFinished]
  return isClosed(repair) && !(earlier && isClosed(earlier)) ? [say.done.isClosed] : []
}

function goesOn({ say }: Telling, repair: RepairState): string {
  return say.done.workedOn(
    gateOrder(repair.plan).find((gate) => repair.gates[gate].status === 'open') ?? null,
  )
}

function notNeededTexts(telling: Telling, repair: RepairState): readonly string[] {
  return gateOrder(repair.plan).flatMap((gate) => {
    const { done } = repair.gates[gate]
    if (done?.kind !== 'not needed' || !isInVisitWeek(telling, done.stamp.happened)) return []
    return [telling.say.done.notNeeded(gate, done.reason)]
  })
}

function taskTexts(telling: Telling): readonly string[] {
  const { say } = telling
  const tasks = [...telling.car.tasks.values()].filter(({ visitId }) => visitId === telling.visit.id)
  const done = tasks.flatMap((task) => {
    if (task.status !== 'passed' || !task.done || !isInVisitWeek(telling, task.done.stamp.happened)) return []
    const by = namesOf(telling, [...workersOn(telling, task.id), ...task.done.did])
    return [{ name: task.plan.name, by, day: dayOf(telling, task.done.stamp.happened) }]
  })
  const going = tasks
    .filter((task) => task.status === 'open' && workedOn(telling).has(task.id))
    .map(({ id, plan }) => ({ name: plan.name, by: namesOf(telling, workersOn(telling, id)), day: null }))
  return [
    ...(done.length > 0 ? [say.done.tasksDone(done)] : []),
    ...(going.length > 0 ? [say.done.tasksGoing(going)] : []),
  ]
}

function journeyTexts(telling: Telling): readonly string[] {
  const { say, context } = telling
  return [...telling.car.aways.values()].flatMap(({ sent, returned, from, expected, what, firmId }) => {
    const firm = context.nameOf(firmId)
    return [
      ...(isInVisitWeek(telling, sent.happened)
        ? [
            [
              say.done.wentTo(firm, dateWords(telling, from), what),
              ...(returned === null ? [say.done.backExpected(dateWords(telling, expected))] : []),
            ].join(' '),
          ]
        : []),
      ...(returned !== null && isInVisitWeek(telling, returned.happened)
        ? [
            `${say.done.cameBack(firm, dayOf(telling, returned.happened))} ${sentence(returned.uncovered)}`.trim(),
          ]
        : []),
    ]
  })
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
