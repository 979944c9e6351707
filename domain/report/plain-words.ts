import type { Decision, FindingKind, Grade, ReworkCause } from '../facts/shapes.ts'
import type { Gate } from '../gates.ts'
import type { GateDone, RepairState } from '../car.ts'

/*
 * The trade's words said for an owner. Every sentence of a report that is made of single words takes them from here.
 */

export const gradeMeanings: Readonly<Record<Grade, string>> = {
  sound: 'is sound',
  surface: 'has rust on its surface only',
  pitted: 'is pitted: eaten into, but not through',
  holed: 'is holed: rusted through in places',
  gone: 'is gone: nothing of it is worth keeping',
}

export const decisionPlans: Readonly<Record<Decision, string>> = {
  keep: 'It stays as it is.',
  treat: 'We will clean and treat it.',
  patch: 'We will cut out what is bad and let in a patch.',
  replace: 'We will make a new one.',
}

export const decisionsDone: Readonly<Record<Decision, string>> = {
  keep: 'It stays as it is.',
  treat: 'We have cleaned and treated it.',
  patch: 'We have let in a patch.',
  replace: 'We have made a new one.',
}

export const findingWords: Readonly<Record<FindingKind, string>> = {
  corrosion: 'rust',
  'earlier patch': 'an earlier patch',
  filler: 'filler',
  crack: 'a crack',
  crease: 'a crease',
  distortion: 'bent metal',
}

export const causeWords: Readonly<Record<ReworkCause, string>> = {
  workmanship: 'our own work was not good enough',
  material: 'the material was at fault',
  fit: 'it did not fit',
  measurement: 'we had measured wrong',
  'damaged after': 'it was damaged afterwards',
  'changed mind': 'something else was wanted',
  'found later': 'something was found later',
  away: 'what was done while the shell was away undid it',
}

/** What is to be done before a gate can be passed; follows the repair's name and a colon. */
export const gateAims: Readonly<Record<Gate, string>> = {
  opened: 'to be opened up',
  assessed: 'to be judged layer by layer',
  fabricated: 'new metal to be made and let in',
  sealed: 'seams to be sealed',
  primed: 'bare metal to be primed',
  'trial-fitted': 'panels around it to be offered up',
  welded: 'to be welded shut',
  painted: 'to be given its coat',
}

/** The work of a gate as the head of a row. */
export const gateWorks: Readonly<Record<Gate, string>> = {
  opened: 'Opening it up',
  assessed: 'Judging it layer by layer',
  fabricated: 'Making new metal and letting it in',
  sealed: 'Sealing the seams',
  primed: 'Priming the bare metal',
  'trial-fitted': 'Offering up the panels around it',
  welded: 'Welding it shut',
  painted: 'Giving it its coat',
}

type Passed = Extract<GateDone, { readonly kind: 'passed' }>

/** What was done by passing a gate: 'sealed the seams and checked that the drains are open'. */
export function passedWords(
  repair: RepairState,
  gate: Gate,
  { asked, coat }: Pick<Passed, 'asked' | 'coat'>,
): string {
  switch (gate) {
    case 'opened':
      return 'opened it up'
    case 'assessed':
      return 'judged it layer by layer'
    case 'fabricated':
      return fabricatedWords(repair)
    case 'sealed':
      return asked.drains ? 'sealed the seams and checked that the drains are open' : 'sealed the seams'
    case 'primed':
      return 'primed the bare metal'
    case 'trial-fitted':
      return 'offered up the panels around it and found the fit good'
    case 'welded':
      return repair.layers.size > 1 ? 'welded the closing panel on' : 'welded it in'
    case 'painted':
      return coat === null ? 'painted it' : COATS[coat]
  }
}

/** Layers that all stay need no new metal, and some need only cleaning. */
function fabricatedWords(repair: RepairState): string {
  const decisions = new Set([...repair.layers.values()].map(({ decision }) => decision))
  if (decisions.has('patch') || decisions.has('replace')) return 'made the new metal and let it in'
  return decisions.has('treat') ? 'cleaned and treated the metal' : 'finished with the metal inside'
}

const COATS = {
  protective: 'gave it its protective coat',
  outer: 'gave it its outer finish',
  temporary: 'gave it a temporary coat until the final paint',
}

/** '6.5 h more', '2 h less' */
export const moreOrLess = (hours: number, words: (value: number) => string): string =>
  `${words(Math.abs(hours))} ${hours < 0 ? 'less' : 'more'}`
