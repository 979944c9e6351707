import type { RepairState, Stamp } from '../car.ts'
import type { FactOf } from '../facts.ts'
import type { LayerId } from '../ids.ts'
import { asRead } from '../measure/judgement.ts'
import { isFinished } from '../rules/standing.ts'
import { stampOf } from '../state/fact-stamp.ts'
import { capital } from '../text/words.ts'
import { linesBlock, tableBlock, textBlocks } from './car-book-blocks.ts'
import { photoNames, photosShow } from './car-book-photos.ts'
import type { BookBlock, BookLine } from './car-book-shapes.ts'
import { type BookTelling, dayOf, factsOf, momentOf, nameOfStamp, statedAt } from './car-book-telling.ts'
import { clause, sentence } from './car-book-words.ts'

type Graded = FactOf<'layerGraded'>

/** The layers from the inside out, as found and as put right. */
export function layerBlocks(telling: BookTelling, repair: RepairState): readonly BookBlock[] {
  const gradings = Map.groupBy(
    factsOf(telling, 'layerGraded').filter(({ payload }) => payload.repairId === repair.id),
    ({ payload }) => payload.layerId,
  )
  return [
    ...textBlocks([outsideText(telling, repair)]),
    ...tableBlock(
      [
        ['Layer, from the inside out', 3],
        ['As found', 2],
        ['Decision', 1.3],
        ['What was done', 3.4],
      ],
      repair.plan.layers.map((layer) => layerRow(telling, repair, layer, gradings.get(layer.layerId)?.[0])),
    ),
    ...textBlocks(judgedTexts(repair, gradings)),
    ...linesBlock(gradedAgain(telling, repair, gradings)),
  ]
}

export function outsideText(telling: BookTelling, { outside }: RepairState): string {
  if (outside === null) return ''
  const { grade, note, stamp } = outside
  return `As seen from outside on ${dayOf(telling, stamp.happened)}: ${grade}. ${sentence(note)}`.trim()
}

type LayerPlan = RepairState['plan']['layers'][number]

/** 'inner panel, 1.6 mm, load-bearing' */
export const layerName = ({ name, thicknessMm, loadBearing }: LayerPlan): string =>
  `${name}, ${asRead(thicknessMm)} mm${loadBearing ? ', load-bearing' : ''}`

function layerRow(
  telling: BookTelling,
  repair: RepairState,
  plan: LayerPlan,
  first: Graded | undefined,
): readonly string[] {
  const layer = repair.layers.get(plan.layerId)
  const step = (words: string, stamp: Stamp | null | undefined): string =>
    stamp ? `${words} ${dayOf(telling, stamp.happened)} by ${nameOfStamp(telling, stamp)}` : ''
  const steps = [
    step('repaired', layer?.repaired),
    step('coated', layer?.coated),
    step('closed over', layer?.closedOver),
  ].filter((words) => words !== '')
  return [
    capital(layerName(plan)),
    first === undefined ? 'not graded' : foundWords(first),
    first?.payload.decision ?? 'none',
    steps.length === 0 ? undoneWords(repair) : steps.join('; '),
  ]
}

function undoneWords(repair: RepairState): string {
  if (repair.closedAsFound !== null) return 'left as found'
  return isFinished(repair) || repair.retired !== null ? 'nothing' : 'nothing yet'
}

const foundWords = ({ payload: { grade, remainingMm } }: Graded): string =>
  remainingMm === null ? grade : `${grade}, ${asRead(remainingMm)} mm left`

/** How layers that nobody could see were judged. */
function judgedTexts(
  { plan }: RepairState,
  gradings: ReadonlyMap<LayerId, readonly Graded[]>,
): readonly string[] {
  return plan.layers.flatMap(({ layerId, name }) => {
    const judged = gradings.get(layerId)?.[0]?.payload.judgedBy ?? ''
    return judged === '' ? [] : [`${capital(name)} was judged by this: ${clause(judged)}.`]
  })
}

/** Later gradings of a layer: what the table says is the first. */
function gradedAgain(
  telling: BookTelling,
  { plan }: RepairState,
  gradings: ReadonlyMap<LayerId, readonly Graded[]>,
): readonly BookLine[] {
  return plan.layers.flatMap(({ layerId, name }) =>
    (gradings.get(layerId) ?? []).slice(1).map((graded) => {
      const stamp = stampOf(graded)
      const { decision, judgedBy } = graded.payload
      const judged = judgedBy === '' ? '' : ` (${clause(judgedBy)})`
      return {
        lead: momentOf(telling, stamp.happened),
        text: `${capital(name)} graded again by ${nameOfStamp(telling, stamp)}: ${foundWords(graded)}${judged}; ${decision}.`,
      }
    }),
  )
}

export function findingBlocks(telling: BookTelling, repair: RepairState): readonly BookBlock[] {
  const findings = [...telling.car.findings.values()].filter(({ repairId }) => repairId === repair.id)
  return linesBlock(
    findings.map(({ layerId, kind, grade, extent, needs, attachments, stamp }) => {
      const layer = repair.plan.layers.find((each) => each.layerId === layerId)?.name
      const shown = photoNames(telling.photos, attachments)
      return {
        lead: momentOf(telling, stamp.happened),
        text: [
          `${capital(kind)}${layer === undefined ? '' : ` on the ${layer}`}, ${grade}: ${clause(extent)}.`,
          `It needs: ${clause(needs)}.`,
          `Found by ${nameOfStamp(telling, stamp)}.`,
          shown === '' ? '' : `${shown}.`,
        ]
          .join(' ')
          .trim(),
      }
    }),
  )
}

export function closedAsFoundBlocks(telling: BookTelling, repair: RepairState): readonly BookBlock[] {
  const closed = repair.closedAsFound
  if (closed === null) return []
  return [
    ...textBlocks([
      `Closed as found on ${statedAt(telling, closed.stamp)}, signed by ${nameOfStamp(telling, closed.stamp)}: the damage is still there.`,
      `What protection could be given: ${clause(closed.protection)}.`,
      `The payer's answer: ${clause(closed.answer)}.`,
      photosShow(telling.photos, closed.attachments, 'it as it was left'),
    ]),
    ...(repair.plan.loadBearing ? [LEFT_LOAD_BEARING] : []),
  ]
}

const LEFT_LOAD_BEARING: BookBlock = {
  kind: 'caution',
  text: 'This is load-bearing metal that was left as found. Have it inspected by a licensed inspector before the car is driven, and follow the local code.',
}
