import { PRIOR_REPAIRS } from '../estimate/hidden-grades.ts'
import type { BandRow } from '../drawing/hours-band-drawing.ts'
import { likelyFigure, likelyFigures, type LikelyHours, rangeWords } from '../text/likely-words.ts'
import { capital, joinWords, plural } from '../text/words.ts'
import type { EstimateRepairView, HiddenLayerView } from '../views/estimate-shapes.ts'
import { inSentence } from '../views/work-words.ts'
import { tradeWords } from '../language/english.ts'

/** One repair of the owner's estimate: its words, and the band to be drawn below them. */
export interface ToldRepair {
  readonly title: string
  readonly texts: readonly string[]
  readonly row: BandRow
}

/** @param saysHours whether the hours that work took are the owner's business: not at a fixed price */
export function toldRepair(repair: EstimateRepairView, saysHours: boolean): ToldRepair {
  const { name, agreed, isAccepted, band, first } = repair
  const took = saysHours ? repair.took : null
  return {
    title: name,
    texts: [`${placeText(repair)} ${stateText(repair, saysHours)}`, hoursText(repair)].filter(
      (text) => text !== '',
    ),
    row: { agreed: agreed > 0 ? agreed : null, isAccepted, band, first, took },
  }
}

/** 'We expect 41 hours; behind metal we have not opened yet it may become 52 hours.' */
export function expectText(band: LikelyHours, isUnseen: boolean): string {
  const [low, high] = likelyFigures(band).map(withHours) as [string, string]
  if (low === high) return `We expect ${low}, and hardly more.`
  return isUnseen
    ? `We expect ${low}; behind metal we have not opened yet it may become ${high}.`
    : `We expect ${low}; it may become ${high}.`
}

/** '41 hours', '1 hour', '8.5 hours' */
export const hoursPlain = (value: number): string => withHours(likelyFigure(value))

const withHours = (figure: string): string => (figure === '1' ? '1 hour' : `${figure} hours`)

const placeText = ({ zone, loadBearing }: EstimateRepairView): string =>
  `${capital(zone)}${loadBearing ? ', load-bearing' : ''}.`

function stateText(repair: EstimateRepairView, saysHours: boolean): string {
  switch (repair.state) {
    case 'before opening':
      return [outsideText(repair), unseenText(repair.layers), countsText(repair.layers)]
        .filter((text) => text !== '')
        .join(' ')
    case 'opened':
      return 'We have opened it and are judging it layer by layer.'
    case 'assessed':
      return `We have opened it and judged every layer${foundText(repair.layers)}.`
    case 'in work':
      return `We are at work on it${foundText(repair.layers)}.`
    case 'finished':
      return repair.took === null || repair.took === 0 || !saysHours
        ? 'It is finished.'
        : `It is finished; it took ${hoursPlain(repair.took)}.`
    case 'closed as found':
      return 'It was closed as it was found.'
  }
}

const outsideText = ({ outside }: EstimateRepairView): string =>
  outside === null
    ? 'We have not judged it from outside yet.'
    : `What can be seen from outside ${tradeWords.gradeMeanings[outside.grade]}.`

function unseenText(layers: readonly HiddenLayerView[]): string {
  const names = layers.filter(({ found }) => found === null).map(({ name }) => `the ${inSentence(name)}`)
  if (names.length === 0) return ''
  const unseen = names.length > MOST_NAMED ? plural('layer', names.length) : joinWords(names)
  return `Behind it nobody has seen ${unseen} yet.`
}

const MOST_NAMED = 3

/** Of the hidden layer that most of the workshop's own repairs tell of. */
function countsText(layers: readonly HiddenLayerView[]): string {
  const seenOf = ({ likely }: HiddenLayerView): number => likely?.[0]?.seen ?? 0
  const unseen = layers.filter(({ likely }) => likely !== null)
  const told = unseen.toSorted((a, b) => seenOf(b) - seenOf(a))[0]
  if (told === undefined) return ''
  return seenOf(told) < PRIOR_REPAIRS
    ? 'We go by the usual experience that metal is worse inside than out.'
    : `In our own workshop: ${inSentence(told.words)}`
}

/** ': the inner sill is holed: rusted through in places; the stiffener ...' said short. */
function foundText(layers: readonly HiddenLayerView[]): string {
  const found = layers.flatMap(({ name, found: grade }) =>
    grade === null || grade === 'not seen' ? [] : [`the ${inSentence(name)} ${SHORT[grade]}`],
  )
  return found.length === 0 ? '' : `: ${joinWords(found)}`
}

const SHORT = {
  sound: 'is sound',
  surface: 'has surface rust',
  pitted: 'is pitted',
  holed: 'is rusted through',
  gone: 'is gone',
} as const

function hoursText(repair: EstimateRepairView): string {
  const { agreed, isAccepted, band, first, state, problem } = repair
  if (problem !== null) return 'We have not put hours to it yet.'
  if (band === null) return ''
  const isUnseen = state === 'before opening' && repair.layers.length > 0
  const proposed = agreed > 0 ? proposedText(agreed, isAccepted) : ''
  const before = first === null ? '' : ` (Before opening: ${rangeWords(first)}.)`
  return `${proposed}${expectText(band, isUnseen)}${before}`
}

const proposedText = (agreed: number, isAccepted: boolean): string =>
  isAccepted
    ? `${capital(hoursPlain(agreed))} ${agreed === 1 ? 'is' : 'are'} agreed. `
    : `We propose ${hoursPlain(agreed)}. `
