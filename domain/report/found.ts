import type { LayerState, RepairState } from '../car.ts'
import type { RepairId } from '../ids.ts'
import type { OwnerLanguage } from '../language/owner-language.ts'
import { rounded } from '../text/words.ts'
import { isAgreed } from '../value/varied-hours.ts'
import type { PhotoPlate, ReportBlock, ReportSection } from './owner-week-shapes.ts'
import { textBlocks } from './report-blocks.ts'
import { sentence } from './sentences.ts'
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
  const blocks: readonly ReportBlock[] = [...repairs, ...textBlocks(listChanges(telling))]
  return blocks.length === 0 ? null : { heading: telling.say.found.heading, blocks }
}

/** How many things were found: graded layers do not count, only what was worth a finding of its own. */
export function weekFindings(telling: Telling) {
  return [...telling.car.findings.values()].filter(({ stamp }) => isInVisitWeek(telling, stamp.happened))
}

/** A finding that says the same of the layer is told with its grade, not again by itself. */
function gradeTexts(telling: Telling, repair: RepairState): readonly string[] {
  const { say } = telling
  return repair.plan.layers.flatMap(({ layerId, name, thicknessMm }) => {
    const layer = repair.layers.get(layerId)
    if (!layer?.graded || !isInVisitWeek(telling, layer.graded.happened)) return []
    const findings = findingsOf(telling, repair).filter((finding) => isSaidWith(finding, layer))
    const texts = [
      gradeText(say, layer, name, thicknessMm),
      ...findings.flatMap(({ extent, needs }) => [sentence(extent), say.found.needs(needs)]),
      findings.length > 0 && layer.repaired === null ? '' : decisionText(say, layer, name),
      ...findings.map(({ id }) => agreementText(telling, id)),
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

function gradeText(
  say: OwnerLanguage,
  { grade, judgedBy, remainingMm }: LayerState,
  name: string,
  thicknessMm: number,
): string {
  if (grade === null) return ''
  if (grade === 'not seen') return say.found.layerNotSeen(name, judgedBy)
  const meaning = say.found.layerGrade(name, grade)
  return remainingMm === null || remainingMm >= thicknessMm
    ? meaning
    : `${meaning} ${say.found.thinnest(lengthWords(say, remainingMm), lengthWords(say, thicknessMm))}`
}

function decisionText({ found }: OwnerLanguage, { decision, repaired }: LayerState, name: string): string {
  if (decision === null) return ''
  return repaired === null ? found.layerPlan(name, decision) : found.layerDone(name, decision)
}

const lengthWords = ({ figures }: OwnerLanguage, millimetres: number): string =>
  figures.mm(millimetres, rounded(millimetres, 1) === rounded(millimetres, 2) ? 1 : 2)

/** What a grade means is said once. */
function findingTexts(telling: Telling, repair: RepairState): readonly string[] {
  const alone = findingsOf(telling, repair).filter((finding) => {
    const layer = finding.layerId === null ? undefined : repair.layers.get(finding.layerId)
    return !layer?.graded || !isInVisitWeek(telling, layer.graded.happened) || !isSaidWith(finding, layer)
  })
  const { found } = telling.say
  return alone.map((finding, index) => {
    const layer = repair.plan.layers.find(({ layerId }) => layerId === finding.layerId)?.name ?? null
    const isKnown = alone.slice(0, index).some(({ grade }) => grade === finding.grade)
    const isSound = finding.grade === 'sound'
    const { kind, extent } = finding
    const day = dayOf(telling, finding.stamp.happened)
    return [
      found.finding({ day, kind, layer, isAlike: isKnown && !isSound, extent }),
      isKnown || isSound ? '' : found.metalThere(finding.grade),
      found.needs(finding.needs),
      agreementText(telling, finding.id),
    ]
      .filter((text) => text !== '')
      .join(' ')
  })
}

/** What is agreed on a finding comes before what is still asked; one that was declined may have been asked anew. */
function agreementText({ car, say }: Telling, findingId: string): string {
  const variations = [...car.variations.values()].filter(({ findings }) =>
    findings.some((id) => id === findingId),
  )
  const agreed = variations.find(({ status }) => isAgreed(status))
  if (agreed) return agreed.status === 'accepted' ? say.found.isAgreed : say.found.isOurs
  const raised = variations.find(({ status }) => status === 'raised')
  return raised ? say.found.beyondAgreed[raised.payer] : ''
}

/** Repairs added or taken off the list after the first week. */
function listChanges(telling: Telling): readonly string[] {
  const { car, before, visit, say } = telling
  if (!before?.visits.has(visit.id)) return []
  const names = (ids: readonly RepairId[]): readonly string[] =>
    ids.flatMap((id) => car.repairs.get(id)?.plan.name ?? [])
  const added = names(weekFacts(telling, 'repairAdded').map(({ payload }) => payload.repairId))
  const retired = weekFacts(telling, 'repairRetired').flatMap(({ payload }) => {
    const name = car.repairs.get(payload.repairId)?.plan.name
    return name === undefined ? [] : [say.found.cameOff(name, payload.reason)]
  })
  const split = weekFacts(telling, 'repairSplit').map(({ payload }) =>
    say.found.split(car.repairs.get(payload.repairId)?.plan.name ?? null, payload.plan.name, payload.reason),
  )
  return [...(added.length > 0 ? [say.found.cameOn(added)] : []), ...retired, ...split]
}
