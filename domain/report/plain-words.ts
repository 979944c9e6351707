import type { Decision, FindingKind, Grade, ReworkCause } from '../facts/shapes.ts'
import type { HoldCode } from '../facts/work-facts.ts'
import type { Gate } from '../gates.ts'
import type { GateDone, RepairState } from '../car.ts'
import { inSentence } from '../views/work-words.ts'

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

/** 'The inner panel is sound', 'The ribs are sound': what a layer is, by the number of its name. */
export function layerMeaning(name: string, grade: Grade): string {
  return `The ${inSentence(name)} ${isMany(name) ? ofMany(gradeMeanings[grade]) : gradeMeanings[grade]}`
}

/** A sentence about one thing, said of what a layer's name calls several. */
export const saidOf = (name: string, text: string): string => (isMany(name) ? ofMany(text) : text)

/** 'stiffening ribs', 'ribs, inner'; not 'chassis', 'brass' or 'truss'. */
const isMany = (name: string): boolean => /[^sui]s$/i.test(name.split(',')[0]?.trim() ?? '')

const ofMany = (text: string): string =>
  text
    .replace(/^is\b/, 'are')
    .replace(/^has\b/, 'have')
    .replace(/^It stays as it is/, 'They stay as they are')
    .replaceAll(/\bits\b/g, 'their')
    .replaceAll(/\bit\b/g, 'them')
    .replaceAll(/\ba new one\b/g, 'new ones')

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

/** The gate that comes next, in few words: it stands on one line of half a page. */
export const gateNext: Readonly<Record<Gate, string>> = {
  opened: 'opening it up',
  assessed: 'judging its layers',
  fabricated: 'the new metal',
  sealed: 'sealing its seams',
  primed: 'priming the bare metal',
  'trial-fitted': 'offering up the panels',
  welded: 'the closing weld',
  painted: 'its coat',
}

/** What the work of a gate leaves behind, as something that can be taken back. */
export const gateResults: Readonly<Record<Gate, string>> = {
  opened: 'the opening up',
  assessed: 'the judging of the layers',
  fabricated: 'the new metal',
  sealed: 'the sealing of the seams',
  primed: 'the priming',
  'trial-fitted': 'the fit of the panels around it',
  welded: 'the closing weld',
  painted: 'the coat',
}

/** Where a gate stands that was worked on and is not done. */
export const gateNotYet: Readonly<Record<Gate, string>> = {
  opened: 'it is not open yet',
  assessed: 'not all of its layers are judged yet',
  fabricated: 'the new metal is not all in yet',
  sealed: 'the seams are not all sealed yet',
  primed: 'the bare metal is not all primed yet',
  'trial-fitted': 'the panels around it are not offered up yet',
  welded: 'it is not welded shut yet',
  painted: 'its coat is not on yet',
}

/** What a check that was set aside asks for. */
export const checkWords: Readonly<Record<HoldCode, string>> = {
  order: 'the order of the work',
  evidence: 'photos and readings',
  'uncover first': 'what lies over it',
  'closed in order': 'what lies behind it',
  'fit together': 'its fit with what is beside it',
  support: 'one side of the shell kept whole',
  "owner's decision": 'the answer that it waited for',
  declined: 'the answer that it got',
  parts: 'a part',
  curing: 'the curing time',
  window: 'the time for the next coat',
  conditions: 'temperature and humidity',
  'hot-work watch': 'the fire watch',
  skill: 'the skill that it needs',
  'by hand': 'a hold of our own',
  task: 'the work that comes before it',
  away: 'the shell being away',
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

/** What was done by passing a gate: 'sealed the seams with every drain open'. */
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
      return asked.drains ? 'sealed the seams with every drain open' : 'sealed the seams'
    case 'primed':
      return 'primed the bare metal'
    case 'trial-fitted':
      return 'offered up the panels around it with a good fit'
    case 'welded':
      return repair.layers.size > 1 ? 'welded the closing panel on' : 'welded it in'
    case 'painted':
      return coat === null ? 'painted it' : COATS[coat]
  }
}

/** Layers that all stay need no new metal, and some need only cleaning. */
function fabricatedWords(repair: RepairState): string {
  const decisions = new Set([...repair.layers.values()].map(({ decision }) => decision))
  if (decisions.has('patch') || decisions.has('replace')) return 'made and let in the new metal'
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
