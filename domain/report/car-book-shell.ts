import type { CarState, FitGroupState } from '../car.ts'
import { compareDimension, standingWords } from '../measure/dimensions.ts'
import { judgeEdge, summariseEdge } from '../measure/gaps.ts'
import { asRead } from '../measure/judgement.ts'
import { stampOf } from '../state/fact-stamp.ts'
import { capital } from '../text/words.ts'
import { FIT_UP_WORDS, factWords } from '../views/record-words.ts'
import { bookChapter, bookSection, linesBlock, tableBlock, textBlocks } from './car-book-blocks.ts'
import type { BookBlock, BookChapter, BookLine, BookSection } from './car-book-shapes.ts'
import { type BookTelling, dateOf, factsOf, momentOf, nameOfStamp } from './car-book-telling.ts'
import { clause, sentence, series } from './car-book-words.ts'

/** Reference dimensions, gaps, and where the shell stood and went. */
export function shellChapter(telling: BookTelling): BookChapter | null {
  const { car } = telling
  return bookChapter('The shell', 'Dimensions, gaps and where it stood', [
    bookSection('Reference dimensions', dimensionBlocks(telling)),
    ...[...car.fitGroups.values()].map((group) => groupSection(telling, group)),
    bookSection('Where the shell stood', linesBlock(moveLines(telling))),
    bookSection('Away from the workshop', linesBlock(awayLines(telling))),
  ])
}

type DimensionState = ReturnType<CarState['dimensions']['get']> & object

function dimensionBlocks(telling: BookTelling): readonly BookBlock[] {
  return [...telling.car.dimensions.values()].flatMap((dimension) => [
    ...textBlocks([dimensionText(telling, dimension)]),
    ...tableBlock(
      [
        ['Read', 2.2],
        ['By', 1.4],
        ['Length', 1.1],
        ['Shell stood', 2.2],
        ['Against the target', 3],
      ],
      [dimension.asFound, ...dimension.readings].map((reading, index) => [
        momentOf(telling, reading.stamp.happened),
        nameOfStamp(telling, reading.stamp),
        `${asRead(reading.mm)} mm`,
        standingWords(reading),
        index === 0 ? 'as found' : driftWords(dimension, reading),
      ]),
    ),
  ])
}

function dimensionText(
  telling: BookTelling,
  { id, name, side, kind, limitMm, targetMm, targetReason }: DimensionState,
): string {
  const target =
    targetReason === null
      ? ''
      : ` The target is ${asRead(targetMm)} mm instead of what was found: ${clause(targetReason)}.${targetSetBy(telling, id)}`
  return `${capital(name)} (${kind === 'aperture' ? 'aperture' : 'datum distance'}, ${side}): may be ${asRead(limitMm)} mm off its target either way.${target}`
}

function targetSetBy(telling: BookTelling, id: DimensionState['id']): string {
  const last = factsOf(telling, 'dimensionTargetSet').findLast(({ payload }) => payload.dimensionId === id)
  if (last === undefined) return ''
  const stamp = stampOf(last)
  return ` Set by ${nameOfStamp(telling, stamp)} on ${momentOf(telling, stamp.happened)}.`
}

function driftWords(dimension: DimensionState, reading: DimensionState['asFound']): string {
  const compared = compareDimension(dimension, reading)
  if (compared.kind === 'not comparable') return compared.reason
  return `${compared.words}${compared.inside ? ', inside' : ''}`
}

function groupSection(telling: BookTelling, { plan, fitUps }: FitGroupState): BookSection {
  const members = [
    ...plan.members.flatMap((id) => telling.car.repairs.get(id)?.plan.name ?? []),
    ...plan.hungParts,
  ]
  return bookSection(
    `Gaps: ${plan.name}`,
    textBlocks([
      fitUps.length === 0 ? `${series(members)}. Nothing was offered up yet.` : `${series(members)}.`,
    ]),
    ...fitUps.map((fitUp) => fitUpBlocks(telling, plan, fitUp)),
  )
}

function fitUpBlocks(
  telling: BookTelling,
  { edges }: FitGroupState['plan'],
  { kind, good, note, readings, stamp }: FitGroupState['fitUps'][number],
): readonly BookBlock[] {
  const text = `${capital(FIT_UP_WORDS[kind]).replace(/,$/, '')} on ${momentOf(telling, stamp.happened)} by ${nameOfStamp(telling, stamp)}: ${good ? 'good' : 'not good'}. ${sentence(note)}`
  const rows = readings.flatMap((reading) => {
    const edge = edges.find(({ edgeId }) => edgeId === reading.edgeId)
    const summary = summariseEdge(reading)
    if (edge === undefined || !summary.ok) return []
    const { minMm, maxMm, meanMm, taperMm, flushMm } = summary.value
    const { inside, problems } = judgeEdge(reading, edge)
    return [
      [
        `${edge.name} (${asRead(edge.nominalMm)} ± ${asRead(edge.toleranceMm)} mm)`,
        `${asRead(minMm)} to ${asRead(maxMm)} mm`,
        `${asRead(meanMm)} mm`,
        `${asRead(taperMm)} mm`,
        `${asRead(flushMm)} mm`,
        inside ? 'inside' : series(problems),
      ],
    ]
  })
  return [
    ...textBlocks([text.trim()]),
    ...tableBlock(
      [
        ['Edge', 2.6],
        ['Gap', 1.6],
        ['Mean', 1],
        ['Taper', 1],
        ['Flush', 1],
        ['Judged', 2.2],
      ],
      rows,
    ),
  ]
}

function moveLines(telling: BookTelling): readonly BookLine[] {
  return factsOf(telling, 'shellMoved').map((fact) => {
    const stamp = stampOf(fact)
    return {
      lead: momentOf(telling, stamp.happened),
      text: `${sentence(factWords(fact, telling.names))} Stated by ${nameOfStamp(telling, stamp)}.`,
    }
  })
}

function awayLines(telling: BookTelling): readonly BookLine[] {
  const { car, context } = telling
  return [...car.aways.values()].map(({ firmId, what, from, expected, sent, returned }) => {
    const firm = context.nameOf(firmId)
    const back =
      returned === null
        ? `Expected back on ${dateOf(expected)}.`
        : `Back on ${momentOf(telling, returned.happened)}. ${returned.uncovered === '' ? '' : `What came to light: ${clause(returned.uncovered)}.`}`
    return {
      lead: dateOf(from),
      text: `Sent to ${firm} by ${nameOfStamp(telling, sent)}: ${clause(what)}. ${back}`.trim(),
    }
  })
}
