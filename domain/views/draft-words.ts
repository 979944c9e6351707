import type { CarState, RepairState } from '../car.ts'
import { GRADES, type Grade } from '../facts/shapes.ts'
import type { RepairId } from '../ids.ts'
import { english, tradeWords } from '../language/english.ts'
import { clause } from '../report/sentences.ts'
import { coveredBy, coversOf, isActive, isClosed } from '../rules/standing.ts'
import { NAME_LIMIT } from '../text/safe-text.ts'
import { inSentence } from './work-words.ts'

type Finding = CarState['findings'] extends ReadonlyMap<unknown, infer F> ? F : never

/** What a variation is about: what its one finding needs, where that is short enough to head a letter. */
export function draftTitle({ plan }: RepairState, findings: readonly Finding[]): string {
  const [only] = findings
  const needs = only === undefined || findings.length > 1 ? '' : needsWords(only)
  const title = `${plan.name}: ${needs}`
  return needs === '' || title.length > NAME_LIMIT ? `${plan.name}: more work than was agreed` : title
}

/** Why, from the findings; where there is none, from the layers that need new metal. */
export function draftWhy(repair: RepairState, findings: readonly Finding[]): string {
  const texts =
    findings.length > 0 ? findings.map((finding) => findingText(repair, finding)) : badLayers(repair)
  return texts.join('\n')
}

function findingText({ plan }: RepairState, { layerId, kind, grade, extent, needs }: Finding): string {
  const layer = plan.layers.find((each) => each.layerId === layerId)?.name
  const where = layer === undefined ? `In the ${inSentence(plan.name)}` : `On the ${inSentence(layer)}`
  return [
    `${where} we found ${tradeWords.findingKinds[kind]}: ${clause(extent)}.`,
    grade === 'sound' ? '' : `The metal there ${tradeWords.gradeMeanings[grade]}.`,
    `What it needs: ${needsWords({ needs })}.`,
  ]
    .filter((text) => text !== '')
    .join(' ')
}

const needsWords = ({ needs }: Pick<Finding, 'needs'>): string =>
  inSentence(clause(needs).replace(/^A (?=\p{Ll})/u, 'a '))

function badLayers({ plan, layers }: RepairState): readonly string[] {
  return plan.layers.flatMap(({ layerId, name }) => {
    const layer = layers.get(layerId)
    if (!layer || layer.grade === null || layer.grade === 'not seen' || layer.repaired !== null) return []
    if (layer.decision !== 'patch' && layer.decision !== 'replace') return []
    return [`${english.found.layerGrade(name, layer.grade)} ${english.found.layerPlan(name, layer.decision)}`]
  })
}

/** What happens if it is not done: from the worst grade, from what the metal carries, and from what waits for it. */
export function draftIfNot(car: CarState, repair: RepairState, findings: readonly Finding[]): string {
  return [
    IF_LEFT[worstGrade(repair, findings)],
    repair.plan.loadBearing
      ? 'It is load-bearing metal: it would not carry what it was made to carry, and we may have to refuse to close it as it is.'
      : '',
    waitText(car, repair.id),
    underText(car, repair.id),
  ]
    .filter((text) => text !== '')
    .join(' ')
}

function worstGrade(repair: RepairState, findings: readonly Finding[]): Grade {
  const layers = [...repair.layers.values()].filter(({ repaired }) => repaired === null)
  const ranks = [...findings, ...layers].map(({ grade }) => GRADES.indexOf(grade as Grade))
  return GRADES[Math.max(0, ...ranks)] ?? 'sound'
}

/** Common practice, no source. */
const IF_LEFT: Readonly<Record<Grade, string>> = {
  sound: 'The work stays undone, and this place is closed as it is.',
  surface: 'The rust goes on slowly behind the closed metal, where nobody can see it.',
  pitted: 'The metal goes on rusting behind the closed metal, and what is thin now will be holed later.',
  holed: 'The holes stay, water goes on coming in, and the rust goes on where nobody can see it.',
  gone: 'There is nothing sound left to weld new metal to, and the rust goes on where nobody can see it.',
}

/** What lies over it cannot be closed before it is finished. */
function waitText(car: CarState, id: RepairId): string {
  const names = namesOf(
    car,
    coversOf(car, id).filter((over) => !isClosedOne(car, over)),
  )
  if (names.length === 0) return ''
  return `Until it is decided, ${english.figures.list(names)} ${names.length === 1 ? 'stays' : 'stay'} open, because ${names.length === 1 ? 'it lies' : 'they lie'} over it.`
}

function underText(car: CarState, id: RepairId): string {
  const names = namesOf(car, coveredBy(car, id))
  return names.length === 0
    ? ''
    : `It covers ${english.figures.list(names)}: water that comes in here reaches that metal again.`
}

const isClosedOne = (car: CarState, id: RepairId): boolean => {
  const repair = car.repairs.get(id)
  return repair !== undefined && isClosed(repair)
}

const namesOf = (car: CarState, ids: readonly RepairId[]): readonly string[] =>
  ids.flatMap((id) => {
    const repair = car.repairs.get(id)
    return repair !== undefined && isActive(repair) ? [`the ${inSentence(repair.plan.name)}`] : []
  })
