import type { CarState, LayerState, RepairState } from '../car.ts'
import type { Payer } from '../facts/shapes.ts'
import type { RepairId } from '../ids.ts'
import { mm, rounded } from '../text/words.ts'
import { capital, inSentence } from '../views/work-words.ts'
import type { PhotoPlate, ReportBlock, ReportSection } from './owner-week-shapes.ts'
import {
  decisionPlans,
  decisionsDone,
  findingWords,
  gradeMeanings,
  layerMeaning,
  saidOf,
} from './plain-words.ts'
import { clause, counted, ended, sentence, series } from './sentences.ts'
import { dayOf, isInVisitWeek, type Telling, toldRepairs, weekFacts } from './telling.ts'

/** Grades and findings of the week, repair by repair, and what they mean; repairs that came onto the list or left it. */
export function foundSection(
  telling: Telling,
  plates: ReadonlyMap<RepairId, readonly PhotoPlate[]>,
): ReportSection | null {
  const repairs = toldRepairs(telling).flatMap((repair): readonly ReportBlock[] => {
    const texts = [...gradeTexts(telling, repair), ...findingTexts(telling, repair)]
    if (texts.length === 0) return []
    return [{ kind: 'repair', title: repair.plan.name, texts, plates: plates.get(repair.id) ?? [] }]
  })
  const blocks: readonly ReportBlock[] = [
    ...repairs,
    ...listChanges(telling).map((text) => ({ kind: 'text', text }) as const),
  ]
  return blocks.length === 0 ? null : { heading: 'What we found', blocks }
}

/** How many things were found: graded layers do not count, only what was worth a finding of its own. */
export function weekFindings(telling: Telling) {
  return [...telling.car.findings.values()].filter(({ stamp }) => isInVisitWeek(telling, stamp.happened))
}

/** A finding that says the same of the layer is told with its grade, not again by itself. */
function gradeTexts(telling: Telling, repair: RepairState): readonly string[] {
  return repair.plan.layers.flatMap(({ layerId, name, thicknessMm }) => {
    const layer = repair.layers.get(layerId)
    if (!layer?.graded || !isInVisitWeek(telling, layer.graded.happened)) return []
    const findings = findingsOf(telling, repair).filter((finding) => isSaidWith(finding, layer))
    const texts = [
      gradeText(layer, name, thicknessMm),
      ...findings.flatMap(({ extent, needs }) => [sentence(extent), needsText(needs)]),
      findings.length > 0 && layer.repaired === null ? '' : decisionText(layer, name),
      ...findings.map(({ id }) => agreementText(telling.car, id)),
    ]
    return [texts.filter((text) => text !== '').join(' ')]
  })
}

type FindingState = ReturnType<typeof weekFindings>[number]

const isSaidWith = ({ layerId, grade, kind }: FindingState, layer: LayerState): boolean =>
  kind === 'corrosion' && layerId === layer.id && grade === layer.grade

function findingsOf(telling: Telling, repair: RepairState): readonly FindingState[] {
  return weekFindings(telling).filter(({ repairId }) => repairId === repair.id)
}

function gradeText({ grade, judgedBy, remainingMm }: LayerState, name: string, thicknessMm: number): string {
  const the = `The ${inSentence(name)}`
  if (grade === null) return ''
  if (grade === 'not seen')
    return ended(
      `${the} could not be seen${judgedBy ? `; we judged it like this: ${clause(judgedBy, 'small')}` : ''}`,
    )
  const left =
    remainingMm === null || remainingMm >= thicknessMm
      ? ''
      : ` Where it is thinnest, ${lengthWords(remainingMm)} of ${lengthWords(thicknessMm)} is left.`
  return `${layerMeaning(name, grade)}.${left}`
}

function decisionText({ decision, repaired }: LayerState, name: string): string {
  if (decision === null) return ''
  return saidOf(name, repaired === null ? decisionPlans[decision] : decisionsDone[decision])
}

const lengthWords = (millimetres: number): string =>
  mm(millimetres, rounded(millimetres, 1) === rounded(millimetres, 2) ? 1 : 2)

/** What a grade means is said once. */
function findingTexts(telling: Telling, repair: RepairState): readonly string[] {
  const alone = findingsOf(telling, repair).filter((finding) => {
    const layer = finding.layerId === null ? undefined : repair.layers.get(finding.layerId)
    return !layer?.graded || !isInVisitWeek(telling, layer.graded.happened) || !isSaidWith(finding, layer)
  })
  return alone.map((finding, index) => {
    const layer = repair.plan.layers.find(({ layerId }) => layerId === finding.layerId)?.name
    const where = layer === undefined ? '' : ` on the ${inSentence(layer)}`
    const isKnown = alone.slice(0, index).some(({ grade }) => grade === finding.grade)
    const isSound = finding.grade === 'sound'
    const alike = isKnown && !isSound ? ', just as bad' : ''
    return [
      ended(
        `On ${dayOf(telling, finding.stamp.happened)} we found ${findingWords[finding.kind]}${where}${alike}: ${clause(finding.extent, 'small')}`,
      ),
      isKnown || isSound ? '' : `The metal there ${gradeMeanings[finding.grade]}.`,
      needsText(finding.needs),
      agreementText(telling.car, finding.id),
    ]
      .filter((text) => text !== '')
      .join(' ')
  })
}

const needsText = (needs: string): string => ended(`What it needs: ${clause(needs, 'small')}`)

function agreementText(car: CarState, findingId: string): string {
  const variation = [...car.variations.values()].find(({ findings }) =>
    findings.some((id) => id === findingId),
  )
  switch (variation?.status) {
    case 'raised':
      return RAISED[variation.payer]
    case 'accepted':
      return 'The extra work is agreed.'
    case 'workshop pays':
      return 'The extra work is paid by us.'
    default:
      return ''
  }
}

const RAISED: Readonly<Record<Payer, string>> = {
  owner: 'This goes beyond what is agreed; it waits for your answer.',
  insurer: 'This goes beyond what is agreed; it waits for the insurer’s answer.',
  workshop: 'This goes beyond what is agreed; whether we do it at our own cost is ours to decide.',
}

/** Repairs added or taken off the list after the first week. */
function listChanges(telling: Telling): readonly string[] {
  const { car, before, visit } = telling
  if (!before?.visits.has(visit.id)) return []
  const names = (ids: readonly RepairId[]): readonly string[] =>
    ids.flatMap((id) => car.repairs.get(id)?.plan.name ?? [])
  const added = names(weekFacts(telling, 'repairAdded').map(({ payload }) => payload.repairId))
  const retired = weekFacts(telling, 'repairRetired').flatMap(({ payload }) => {
    const name = car.repairs.get(payload.repairId)?.plan.name
    return name === undefined ? [] : [ended(`${name} came off the list: ${clause(payload.reason, 'small')}`)]
  })
  const split = weekFacts(telling, 'repairSplit').map(({ payload }) =>
    ended(
      `${car.repairs.get(payload.repairId)?.plan.name ?? 'A repair'} was split in two; the second part is ${payload.plan.name}. The reason: ${clause(payload.reason, 'small')}`,
    ),
  )
  const list = capital(`${counted('repair', added.length)} came onto the list`)
  return [...(added.length > 0 ? [`${list}: ${series(added)}.`] : []), ...retired, ...split]
}
