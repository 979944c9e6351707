import type { CarState, FitGroupState } from '../car.ts'
import { judgeEdge, summariseEdge } from '../measure/gaps.ts'
import { edgeProblems } from '../rules/asks.ts'
import { lastFullFitUp, membersNotReady } from '../rules/fit-holds.ts'
import { isClosed } from '../rules/standing.ts'
import { joinWords } from '../text/words.ts'
import type { EdgeView, FitGroupView, FitUpView } from './shared-views.ts'
import { stampName, type ViewContext } from './view-context.ts'

/** A fit group with how each member stands, the last reading of every edge, and its fit-ups, the latest first. */
export function fitGroupView(car: CarState, group: FitGroupState, context: ViewContext): FitGroupView {
  const last = lastFullFitUp(group)
  return {
    id: group.id,
    name: group.plan.name,
    members: memberViews(car, group),
    hungParts: group.plan.hungParts,
    edges: group.plan.edges.map((edge) => edgeView(group, edge)),
    fitUps: group.fitUps.map((fitUp) => fitUpView(group, fitUp, context)).toReversed(),
    good: last?.good ?? false,
    stale: last === null && group.fitUps.some(({ kind }) => kind === 'full'),
  }
}

type FitUpState = FitGroupState['fitUps'][number]
type Edge = FitGroupState['plan']['edges'][number]

function memberViews(car: CarState, group: FitGroupState): FitGroupView['members'] {
  const waiting = new Map(membersNotReady(car, group).map(({ repair, why }) => [repair.id, why]))
  return group.plan.members.flatMap((id) => {
    const repair = car.repairs.get(id)
    if (repair === undefined) return []
    const ready = isClosed(repair) ? 'is closed; the others are fitted to it' : 'is open and primed'
    return [{ id, name: repair.plan.name, ready: !waiting.has(id), why: waiting.get(id) ?? ready }]
  })
}

function edgeView(group: FitGroupState, edge: Edge): EdgeView {
  const { edgeId, name, nominalMm, toleranceMm, flushToleranceMm } = edge
  return { edgeId, name, nominalMm, toleranceMm, flushToleranceMm, last: lastReading(group, edge) }
}

function lastReading(group: FitGroupState, edge: Edge): EdgeView['last'] {
  const readings = group.fitUps.flatMap((fitUp) => fitUp.readings)
  const reading = readings.findLast(({ edgeId }) => edgeId === edge.edgeId)
  if (reading === undefined) return null
  const summary = summariseEdge(reading)
  if (!summary.ok) return null
  const { inside, problems } = judgeEdge(reading, edge)
  return { ...summary.value, gapsMm: reading.gapsMm, inside, words: inside ? 'inside' : joinWords(problems) }
}

function fitUpView(group: FitGroupState, fitUp: FitUpState, { nameOf }: ViewContext): FitUpView {
  const { kind, good, stamp } = fitUp
  const by = stampName(stamp, nameOf)
  const stale = kind === 'full' && stamp.number <= group.staleFrom
  return { at: stamp.happened, by, kind, good, stale, words: fitUpWords(group, fitUp) }
}

/** What was read outside its tolerance, and what the person noted. */
function fitUpWords({ plan }: FitGroupState, { good, readings, note }: FitUpState): string {
  const read = plan.edges.filter(({ edgeId }) => readings.some((reading) => reading.edgeId === edgeId))
  const problems = edgeProblems(read, { readings })
  const found = problems.length === 0 ? '' : `: ${joinWords(problems)}`
  return `${good ? 'good' : 'not good'}${found}${note === '' ? '' : `; ${note}`}`
}
