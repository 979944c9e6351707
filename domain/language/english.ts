/*
 * English, whole: over 300 lines because a language is one file, in the order of its interface.
 */
import type { Decision, FindingKind, Grade, Payer, ReworkCause } from '../facts/shapes.ts'
import type { HoldCode } from '../facts/work-facts.ts'
import type { Gate } from '../gates.ts'
import type { PlanFault } from '../plan/plan.ts'
import { countedMarks } from '../photo-marks/marks-words.ts'
import { clause, ended } from '../report/sentences.ts'
import { capital, moreOrLess } from '../text/words.ts'
import { inSentence } from '../views/work-words.ts'
import { datesOf, listOf, numbersOf, pluralOf } from './intl.ts'
import type {
  Back,
  CaptionWords,
  CauseWords,
  DecidedWords,
  DoneWords,
  DrawingWords,
  FigureWords,
  FoundWords,
  HoursWords,
  KnowWords,
  LetterWords,
  MailWords,
  NeedsWords,
  NextWords,
  OpeningWords,
  OwnerLanguage,
  PaperWords,
  PassedGate,
  ReadyWords,
  StandsWords,
  TaskTold,
  TroubleWords,
  WaitedPart,
} from './owner-language.ts'

const number = numbersOf('en-GB')
const plural = pluralOf('en-GB')
const joined = listOf('en-GB')
/** The month of en-GB is 'Sept', where three letters are wanted as of the others. */
const dateOf = datesOf('en', 'short')

const hours = (value: number): string => `${number(value, 1)} h`

/** 'a, b and c' of parts that may hold commas themselves: then 'a; b; and c', and 'a, and b' of two. */
function list(parts: readonly string[]): string {
  if (parts.length < 2 || !parts.some((part) => part.includes(','))) return joined(parts)
  const before = parts.slice(0, -1)
  return `${before.join('; ')}${parts.length === 2 ? ',' : ';'} and ${parts.at(-1)}`
}

/** 'one step', 'three steps', '14 steps': what a letter counts. Give the plural where it is not noun + s. */
export function counted(noun: string, count: number, many = `${noun}s`): string {
  return `${inWords(count)} ${plural(count, noun, many)}`
}

/** In words up to twelve. */
const inWords = (count: number): string => NUMBERS[count] ?? String(count)

const NUMBERS = [
  'no',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
]

const inside = (text: string): string => clause(text, 'small')
const quoted = (text: string): string => `‘${text}’`
const titled = (title: string): string => quoted(clause(title))

const figures: FigureWords = {
  hours,
  number,
  mm: (value, decimals) => `${number(value, decimals)} mm`,
  day: (date, currentYear) => {
    const { weekday, day, month, year } = dateOf(date)
    return `${weekday} ${day} ${month}${Number(year) === currentYear ? '' : ` ${year}`}`
  },
  moreOrLess: (value) => moreOrLess(value, hours),
  list,
  andMore: (count) => `and ${inWords(count)} more`,
  quoted,
  inside,
}

const letter: LetterWords = {
  title: (car, shell) => `${car}, shell ${shell}`,
  subtitle: (week, monday, sunday) => `Week ${week}, ${dayRange(monday, sunday)}`,
  greeting: (owner) => `Dear ${owner},`,
  erased: '(name erased)',
  corrects: (report) => `This report corrects report ${report} on the same week and takes its place.`,
  morePhotos: 'More photos',
  informs: 'This report informs: it says what we found and did. It certifies nothing.',
  loadBearing:
    'Repairs to load-bearing metal, near seat-belt, steering, brake and suspension mountings above all, are inspected by law in many countries: follow the local code and have them signed off by a licensed inspector.',
}

/** '16 to 23 Dec 2026', '28 Nov to 3 Dec 2026', '28 Dec 2026 to 3 Jan 2027' */
function dayRange(from: string, to: string): string {
  const [first, last] = [dateOf(from), dateOf(to)]
  const begin =
    first.year !== last.year
      ? `${first.day} ${first.month} ${first.year}`
      : first.month === last.month
        ? first.day
        : `${first.day} ${first.month}`
  return `${begin} to ${last.day} ${last.month} ${last.year}`
}

/** ' and expected back on Fri 4 Dec', or that it has not come on that day. */
const backWords = ({ day, isOver }: Back): string =>
  isOver ? `; it was expected back on ${day} and has not come` : ` and expected back on ${day}`

const opening: OpeningWords = {
  first: ({ isWarranty, day, repairs }) => {
    const what = `This is our first report on ${isWarranty ? 'the warranty visit' : 'this visit'}`
    const began = `${what}, which began on ${day}.`
    if (repairs === null) return began
    return repairs === 0
      ? `${began} No repair is listed yet.`
      : `${began} ${capital(counted('repair', repairs))} ${plural(repairs, 'is', 'are')} listed.`
  },
  did: (clauses) => `This week we ${list(clauses)}.`,
  steps: (steps, repairs) => `finished ${counted('step', steps)} on ${counted('repair', repairs)}`,
  tasks: (count) => `did ${counted('task', count)} on the whole car`,
  triedFit: 'tried how the panels fit',
  sentAway: 'sent the shell away',
  sentAwayAndBack: 'sent the shell away and had it back',
  hadBack: 'had the shell back',
  tookBack: (steps) => `took back ${counted('step', steps)} of the work`,
  found: (things) => `found ${counted('thing', things)} worth your attention`,
  worked: (spent) => `worked ${spent}`,
  redone: 'Some of it was work done again.',
  redoneWhy: 'Some of it was work done again; we say below why.',
  wentOn: 'This week the work went on, and nothing was finished in it.',
  quiet: (reason) => `This week we did no work on your car: ${reason}`,
  notAgreed: 'the visit is not agreed yet.',
  notBegun: 'the visit is agreed, and the work has not begun.',
  paused: (day, reason) => `it has been paused since ${day}.${reason === '' ? '' : ` ${reason}`}`,
  readyToHandOver: 'the work is finished, and the car is ready to be handed over.',
  isFinished: 'the work is finished.',
  away: (what, back) => `the shell is away (${inside(what)})${backWords(back)}.`,
  nothingOpen: 'no work is left open on it.',
  waitsItsTurn: 'the work waits its turn, and nothing on the car itself holds it up.',
  waits: 'the work waits.',
  finished: (day) => `The work was finished on ${day}; the car is ready to be handed over.`,
  delivered: (day) => `The car was handed over on ${day}. This is our last report on this visit.`,
  decisions: (count) =>
    `${capital(counted('decision', count))} ${plural(count, 'waits', 'wait')} for you: please read ${quoted(needs.heading)}.`,
}

/** What stands under it is pointed to from elsewhere. */
const KNOW_HEADING = 'What you should know'

const needs: NeedsWords = {
  heading: 'What we need from you',
  asked: (day) => `We asked you on ${day}.`,
  takes: (value, names, doubt) => {
    const where = names.length === 0 ? '' : ` (${list(names)})`
    const takes = `It takes ${figures.moreOrLess(value)} than agreed${where}.`
    return doubt === null
      ? takes
      : `${takes} It may become ${hours(doubt.low)} at the least and ${hours(doubt.high)} at the most.`
  },
  ifNot: (text) => ended(`If you decide against it: ${inside(text)}`),
  doYouAgree: 'Please tell us whether you agree.',
  mayWe: 'Please tell us whether we may do it.',
  estimate: 'The estimate',
  estimateWaits: (total, names) => {
    const where =
      names.length > 6
        ? `, on ${counted('repair or task', names.length, 'repairs and tasks')}`
        : `: ${list(names)}`
    return `${total} of our estimate wait for your answer${where}.`
  },
  whichMayWe: 'Please tell us which of it we may do. We do not begin it before.',
}

const gradeMeanings: Readonly<Record<Grade, string>> = {
  sound: 'is sound',
  surface: 'has rust on its surface only',
  pitted: 'is pitted: eaten into, but not through',
  holed: 'is holed: rusted through in places',
  gone: 'is gone: nothing of it is worth keeping',
}

const decisionPlans: Readonly<Record<Decision, string>> = {
  keep: 'It stays as it is.',
  treat: 'We will clean and treat it.',
  patch: 'We will cut out what is bad and let in a patch.',
  replace: 'We will make a new one.',
}

const decisionsDone: Readonly<Record<Decision, string>> = {
  keep: 'It stays as it is.',
  treat: 'We have cleaned and treated it.',
  patch: 'We have let in a patch.',
  replace: 'We have made a new one.',
}

/** A sentence about one thing, said of what a layer's name calls several. */
const saidOf = (name: string, text: string): string => (isMany(name) ? ofMany(text) : text)

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

const findingKinds: Readonly<Record<FindingKind, string>> = {
  corrosion: 'rust',
  'earlier patch': 'an earlier patch',
  filler: 'filler',
  crack: 'a crack',
  crease: 'a crease',
  distortion: 'bent metal',
}

const found: FoundWords = {
  heading: 'What we found',
  layerGrade: (layer, grade) => `The ${inSentence(layer)} ${saidOf(layer, gradeMeanings[grade])}.`,
  layerNotSeen: (layer, judgedBy) =>
    ended(
      `The ${inSentence(layer)} could not be seen${judgedBy ? `; we judged it like this: ${inside(judgedBy)}` : ''}`,
    ),
  thinnest: (left, of) => `Where it is thinnest, ${left} of ${of} is left.`,
  layerPlan: (layer, decision) => saidOf(layer, decisionPlans[decision]),
  layerDone: (layer, decision) => saidOf(layer, decisionsDone[decision]),
  finding: ({ day, kind, layer, isAlike, extent }) => {
    const where = layer === null ? '' : ` on the ${inSentence(layer)}`
    const alike = isAlike ? ', just as bad' : ''
    return ended(`On ${day} we found ${findingKinds[kind]}${where}${alike}: ${inside(extent)}`)
  },
  metalThere: (grade) => `The metal there ${gradeMeanings[grade]}.`,
  needs: (text) => ended(`What it needs: ${inside(text)}`),
  beyondAgreed: {
    owner: 'This goes beyond what is agreed; it waits for your answer.',
    insurer: 'This goes beyond what is agreed; it waits for the insurer’s answer.',
    workshop: 'This goes beyond what is agreed; whether we do it at our own cost is ours to decide.',
  },
  isAgreed: 'The extra work is agreed.',
  isOurs: 'The extra work is paid by us.',
  cameOff: (name, reason) => ended(`${name} came off the list: ${inside(reason)}`),
  split: (name, second, reason) =>
    ended(
      `${name ?? 'A repair'} was split in two; the second part is ${second}. The reason: ${inside(reason)}`,
    ),
  cameOn: (names) => capital(`${counted('repair', names.length)} came onto the list: ${list(names)}.`),
}

const COATS = {
  protective: 'gave it its protective coat',
  outer: 'gave it its outer finish',
  temporary: 'gave it a temporary coat until the final paint',
}

/** Layers that all stay need no new metal, and some need only cleaning. */
const METALS = {
  new: 'made and let in the new metal',
  treated: 'cleaned and treated the metal',
  kept: 'finished with the metal inside',
}

/** What was done by passing a gate: 'sealed the seams with every drain open'. */
function passedWords({ gate, drainsAsked, hasManyLayers, metal, coat }: PassedGate): string {
  switch (gate) {
    case 'opened':
      return 'opened it up'
    case 'assessed':
      return 'judged it layer by layer'
    case 'fabricated':
      return METALS[metal]
    case 'sealed':
      return drainsAsked ? 'sealed the seams with every drain open' : 'sealed the seams'
    case 'primed':
      return 'primed the bare metal'
    case 'trial-fitted':
      return 'offered up the panels around it with a good fit'
    case 'welded':
      return hasManyLayers ? 'welded the closing panel on' : 'welded it in'
    case 'painted':
      return coat === null ? 'painted it' : COATS[coat]
  }
}

/** Where a gate stands that was worked on and is not done. */
const gateNotYet: Readonly<Record<Gate, string>> = {
  opened: 'it is not open yet',
  assessed: 'not all of its layers are judged yet',
  fabricated: 'the new metal is not all in yet',
  sealed: 'the seams are not all sealed yet',
  primed: 'the bare metal is not all primed yet',
  'trial-fitted': 'the panels around it are not offered up yet',
  welded: 'it is not welded shut yet',
  painted: 'its coat is not on yet',
}

/** The work of a gate as the head of a row. */
const gateWorks: Readonly<Record<Gate, string>> = {
  opened: 'Opening it up',
  assessed: 'Judging it layer by layer',
  fabricated: 'Making new metal and letting it in',
  sealed: 'Sealing the seams',
  primed: 'Priming the bare metal',
  'trial-fitted': 'Offering up the panels around it',
  welded: 'Welding it shut',
  painted: 'Giving it its coat',
}

const taskTold = ({ name, by, day }: TaskTold): string =>
  `${inSentence(clause(name))}${by.length === 0 ? '' : ` by ${joined(by)}`}${day === null ? '' : ` (${day})`}`

const done: DoneWords = {
  heading: 'What we did',
  onDay: (day, passed) => `On ${day} we ${list(passed.map(passedWords))}.`,
  people: (names) => `The work was done by ${list(names)}.`,
  closedAsFound: `It is closed as found; what that means stands under ${quoted(KNOW_HEADING)}.`,
  isFinished: 'It is finished.',
  isClosed: 'It is closed now.',
  workedOn: (gate) => (gate === null ? 'We worked on it.' : `We worked on it; ${gateNotYet[gate]}.`),
  notNeeded: (gate, reason) => ended(`${gateWorks[gate]} is not needed here: ${inside(reason)}`),
  tasksDone: (tasks) => `Work on the whole car: ${list(tasks.map(taskTold))}.`,
  tasksGoing: (tasks) => `Work that goes on: ${list(tasks.map(taskTold))}.`,
  wentTo: (firm, day, what) => ended(`The shell went to ${firm} on ${day}: ${inside(what)}`),
  backExpected: (day) => `It is expected back on ${day}.`,
  cameBack: (firm, day) => `The shell came back from ${firm} on ${day}.`,
}

const causes: Readonly<Record<ReworkCause, string>> = {
  workmanship: 'our own work was not good enough',
  material: 'the material was at fault',
  fit: 'it did not fit',
  measurement: 'we had measured wrong',
  'damaged after': 'it was damaged afterwards',
  'changed mind': 'something else was wanted',
  'found later': 'something was found later',
  away: 'what was done while the shell was away undid it',
}

/** What the work of a gate leaves behind, as something that can be taken back. */
const gateResults: Readonly<Record<Gate, string>> = {
  opened: 'the opening up',
  assessed: 'the judging of the layers',
  fabricated: 'the new metal',
  sealed: 'the sealing of the seams',
  primed: 'the priming',
  'trial-fitted': 'the fit of the panels around it',
  welded: 'the closing weld',
  painted: 'the coat',
}

const trouble: TroubleWords = {
  heading: 'What did not go to plan',
  rework: (value, stated) => {
    const [first] = stated
    const why =
      first === undefined
        ? ''
        : stated.length === 1
          ? `, because ${causes[first[0]]}`
          : `: ${list(stated.map(([cause, spent]) => `${spent} because ${causes[cause]}`))}`
    return `${value} of this week went into work that had been done before${why}.`
  },
  gateTakenBack: ({ name, day, gate, cause, reason, isDoneAgain }) =>
    `${name}: on ${day} we took back ${gateResults[gate]}, because ${causes[cause]} (${inside(reason)}).${isDoneAgain ? ' It has been done again since.' : ''}`,
  taskTakenBack: ({ name, day, cause, reason }) =>
    `${name}: on ${day} we began it again, because ${causes[cause]} (${inside(reason)}).`,
  treatmentUndid: (repairs, reason) =>
    ended(
      `The treatment away undid work on ${counted('repair', repairs)} that must be done again: ${inside(reason)}`,
    ),
  badFit: ({ name, times, day, note, goodOn }) => {
    const when =
      times === 1 ? `on ${day}` : `${times === 2 ? 'twice' : counted('time', times)}, the last time on ${day}`
    const why = inside(note) === '' ? '' : `: ${inside(note)}`
    const bad = ended(`The fit of the ${inSentence(name)} was not good ${when}${why}`)
    if (goodOn === null) return bad
    return `${bad} ${goodOn === day ? 'Later that day it was good.' : `On ${goodOn} it was good.`}`
  },
  badPart: (name, reason) =>
    ended(
      `We did not accept a part, ${titled(name ?? 'a part')}${inside(reason) === '' ? '' : `: ${inside(reason)}`}`,
    ),
}

const payerNames = (payer: Payer): string => (payer === 'owner' ? 'You' : 'The insurer')

const decided: DecidedWords = {
  heading: 'What was decided',
  accepted: (payer, value, day) => `${payerNames(payer)} accepted ${value} of the estimate on ${day}.`,
  answered: ({ payer, isAccepted, isChanged, title, day, hours: value }) => {
    const when = `on ${day} (${value})`
    return payer === 'workshop'
      ? `We decided ${isAccepted ? 'to do' : 'against'} ${titled(title)} at our own cost ${when}.`
      : `${payerNames(payer)} ${isAccepted ? 'accepted' : 'declined'} ${titled(title)}${isChanged ? ' with changes' : ''} ${when}.`
  },
  atOurCost: (title, reason) => ended(`We do ${titled(title)} at our own cost: ${inside(reason)}`),
  leftOut: (title, reason) =>
    ended(`${titled(title)} is left out, and less is done instead: ${inside(reason)}`),
}

/** The gate that comes next, in few words: it stands on one line of half a page. */
const gateNext: Readonly<Record<Gate, string>> = {
  opened: 'opening it up',
  assessed: 'judging its layers',
  fabricated: 'the new metal',
  sealed: 'sealing its seams',
  primed: 'priming the bare metal',
  'trial-fitted': 'offering up the panels',
  welded: 'the closing weld',
  painted: 'its coat',
}

const stands: StandsWords = {
  heading: 'Where each repair stands',
  closedAsFound: 'It was closed as found.',
  isFinished: 'It is finished.',
  steps: (count, of) =>
    count === 0
      ? 'No step of it is done yet.'
      : capital(`${inWords(count)} of ${inWords(of)} steps ${plural(count, 'is', 'are')} done.`),
  next: (gate) => `Next: ${gateNext[gate]}.`,
  groups: {
    finished: 'Finished',
    'closed as found': 'Closed as found',
    'in work': 'In work',
    'not begun': 'Not begun',
  },
}

const payNoMore = 'You pay for nothing beyond that unless you have agreed to it first.'
const aboveIsOurs = 'The hours above the cap are ours, and you do not pay for them.'
const whatIsAgreed = (isAsked: boolean): string =>
  isAsked ? 'what is agreed and what we have asked for' : 'what is agreed'

const hoursWords: HoursWords = {
  heading: 'Hours',
  thisWeek: 'this week',
  toDate: 'to date',
  agreed: 'agreed',
  allWork: 'All work',
  waiting: (value) => `${value} more are estimated and not agreed yet.`,
  capped: (value) => `The price is capped: ${value} are charged at the most.`,
  alsoPaid: (payers) => {
    const names = payers.map((payer) => (payer === 'insurer' ? 'the insurer' : 'our workshop'))
    return `These figures take in what ${joined(names)} ${plural(names.length, 'pays', 'pay')} for.`
  },
  whole: (low, high) =>
    low === high
      ? `We expect the whole visit to come to about ${high} h.`
      : `We expect the whole visit to come to about ${low} h, and in four cases of five to no more than ${high} h.`,
  countsWaiting: 'That counts what waits for an answer too.',
  within: (isAsked) => `That is within ${whatIsAgreed(isAsked)}.`,
  mayExceed: (isAsked) =>
    `It is likely to stay within ${whatIsAgreed(isAsked)}, but it may not. ${payNoMore}`,
  exceeds: (figure, isAsked) => `That is about ${figure} h more than ${whatIsAgreed(isAsked)}. ${payNoMore}`,
  withinCap: 'That is within the cap.',
  mayExceedCap: (cap) => `It is likely to stay within the cap of ${cap}, but it may not. ${aboveIsOurs}`,
  exceedsCap: (figure, cap) => `That is about ${figure} h above the cap of ${cap}. ${aboveIsOurs}`,
}

/** What a check that was set aside asks for. */
const checks: Readonly<Record<HoldCode, string>> = {
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

const know: KnowWords = {
  heading: KNOW_HEADING,
  stopped: (title, reason) => ended(`Work on ${titled(title)} has stopped: ${inside(reason)}`),
  closedOver: (over, under) =>
    `${over} is closed although ${under} behind it is not finished. It must be opened again.`,
  bothOpen: (one, other) => `${capital(one)} and ${other} stand open on different sides without support.`,
  wasClosedAsFound: (name, day) => `${name} was closed as found on ${day}.`,
  closedAsFound: ({ name, day, payer, answer, protection, isLoadBearing }) =>
    [
      `${name} was closed as found on ${day}: the damage is still there.`,
      ended(`${payer === 'insurer' ? 'The insurer’s' : 'Your'} answer was: ${inside(answer)}`),
      ended(`What could be done to protect it: ${inside(protection)}`),
      ...(isLoadBearing
        ? [
            'It is load-bearing metal: have it inspected before the car is driven, and follow the local rules.',
          ]
        : []),
    ].join(' '),
  setAside: ({ name, day, code, gate, reason }) =>
    ended(
      `${name}: on ${day} the manager set aside a check (${checks[code]}) before ${gateResults[gate]}. The reason: ${inside(reason)}`,
    ),
}

/** What is to be done before a gate can be passed; follows the repair's name and a colon. */
const gateAims: Readonly<Record<Gate, string>> = {
  opened: 'to be opened up',
  assessed: 'to be judged layer by layer',
  fabricated: 'new metal to be made and let in',
  sealed: 'seams to be sealed',
  primed: 'bare metal to be primed',
  'trial-fitted': 'panels around it to be offered up',
  welded: 'to be welded shut',
  painted: 'to be given its coat',
}

const PART_STATES = {
  needed: 'is not ordered yet',
  ordered: 'is ordered',
  received: 'is here and must be looked at first',
  rejected: 'was not good enough and must be had anew',
  checked: 'is here',
  fitted: 'is fitted',
} as const

/** 'it waits for a part, ‘Hinge’, which is ordered and expected on Wed 9 Dec.' */
function partWords({ name, state, expected }: WaitedPart): string {
  const how =
    state !== 'ordered' || expected === null
      ? PART_STATES[state]
      : expected.isOver
        ? `was expected on ${expected.day} and has not come`
        : `is ordered and expected on ${expected.day}`
  return `it waits for a part, ${titled(name)}, which ${how}.`
}

const next: NextWords = {
  heading: 'What comes next',
  canGoOn: 'We can go on with this:',
  thisWaits: 'This waits:',
  allWork: 'All work on the shell',
  aim: (name, gate) => `${name}: ${gateAims[gate]}.`,
  waits: (name, reason) => `${name}: ${reason}`,
  notEstimated: 'it is not estimated and agreed yet.',
  ourDecision: 'it waits for a decision of our own.',
  answer: (payer, title) =>
    `it waits for ${payer === 'owner' ? 'your' : 'the insurer’s'} answer on ${title === null ? 'the estimate' : titled(title)}.`,
  declined: 'the extra work was declined, and what happens now is not settled yet.',
  support: 'it waits until the other side is closed: the shell keeps one side whole at all times.',
  away: (back) => `it is away${back === null ? '' : backWords(back)}.`,
  window: 'its surface must be cleaned again first, because the time for the next coat is over.',
  review: 'it waits for our review of the estimate.',
  part: (part) => (part === null ? 'it waits for a part.' : partWords(part)),
  task: (name) => `${titled(name)} must be done first.`,
  curing: (day) => `it must cure until ${day}.`,
  skill: 'it waits for somebody with the skill it needs.',
  held: ({ words }) => ended(inside(words)),
}

const PART_OF_IT = 'part of the work cannot be planned'

const faultReasons: Readonly<Record<PlanFault['code'], string>> = {
  'no skill': 'nobody here can do part of the work at present',
  'no bay': 'a place for part of it is missing',
  'no fixture': 'a fixture for part of it is missing',
  'not braced': 'the shell must be braced before it can be moved',
  'not authorised': 'part of the work is stopped until it is agreed how to go on',
  'closed over': 'part of the work lies under metal that is closed and must be opened again',
  circle: PART_OF_IT,
  'no hours': PART_OF_IT,
  'bad hours': PART_OF_IT,
  'pin in the past': PART_OF_IT,
  'pins clash': PART_OF_IT,
  'too long': PART_OF_IT,
  'in the way': PART_OF_IT,
}

/** Whole weeks as weeks. */
const daysWords = (days: number): string =>
  days % 7 === 0 ? counted('week', days / 7) : counted('day', days)

const ready: ReadyWords = {
  heading: 'When it will be ready',
  whilePaused: 'While the work is paused we can give no date for its end.',
  by: (late) => `We expect to be done by ${late}.`,
  between: (early, late) =>
    `We expect to be done by ${late}, and perhaps as early as ${early}: the later date holds in four cases of five, the earlier one in half of them.`,
  countsOnAnswers: 'That counts on your answers coming soon.',
  countsOnAnswer: (title, day) =>
    `That counts on your answer on ${titled(title)} ${day === null ? 'coming soon' : `by ${day}`}.`,
  noDateBefore: 'At the end of last week we could give no date yet.',
  unchanged: 'That has not changed since the end of last week.',
  moved: (was, days) =>
    `At the end of last week we expected to be done by ${was}: it is now ${daysWords(Math.abs(days))} ${days > 0 ? 'later' : 'sooner'}.`,
  noSingleCause: 'No single thing moved it: it follows from how the work in our workshop went.',
  causes: (clauses) => `What came in between: ${clauses.join('; ')}.`,
  noDate: (faults) => {
    const reasons = [...new Set(faults.map((code) => faultReasons[code]))]
    return `We can give no date yet: ${reasons.length === 0 ? PART_OF_IT : reasons.join('; ')}.`
  },
  expectedBefore: (was) => `At the end of last week we expected to be done by ${was}.`,
  promised: (day) => `The promised date is ${day}.`,
  promisedAsBefore: (day) => `The promised date is ${day}, as before.`,
  promisedBeforePause: (day) => `The promised date, ${day}, is from before the pause.`,
  promiseSet: (day) => `The promised date is now set: ${day}.`,
  promiseWithdrawn: (was) => `The promised date, ${was}, was withdrawn this week; a new one is not set yet.`,
  promiseMoved: (was, now) => `The promised date was moved this week, from ${was} to ${now}.`,
  promisePassed: 'That day has passed and the car is not finished.',
  willKeep: 'As it looks now we shall keep it.',
  mayKeep: 'As it looks now we may keep it, but we cannot be sure of it.',
  willNotKeep: 'As it looks now we shall not keep it, and we are sorry for that.',
}

const movedCauses: CauseWords = {
  listed: (repairs) => `${counted('repair', repairs)} came onto the list`,
  unlisted: (repairs) => `${counted('repair', repairs)} came off the list`,
  redone: 'some of the work had to be done again',
  wentAway: (what) => `the shell went away (${inside(what)})`,
  treatmentUndid: 'the treatment away undid some of the work',
  held: 'part of the work had to be held',
  elsewhere: {
    people: 'fewer people are at work here than we had counted on',
    days: 'the days on which our workshop works were changed',
    'longer days': 'we work longer on some days',
    bays: 'a place in our workshop is out of use',
  },
  damage: 'we found damage that had not shown before',
  lookedAgain: 'we looked again at how much of the work is left',
  paused: 'the work was paused for a time',
  takenUp: 'the work was taken up',
  agreed: (title, value) => `${titled(title)} was agreed (${value})`,
  atOurCost: (title) => `we do ${titled(title)} at our own cost`,
  leftOut: (title) => `${titled(title)} was left out`,
  stopped: (title) => `work on ${titled(title)} was stopped`,
  raised: (title) => `${titled(title)} came up and waits for an answer`,
  badPart: (name) => `a part was not good enough (${titled(name ?? 'a part')})`,
  partMoved: (name, way) => `a part comes ${way} than we were told (${titled(name ?? 'a part')})`,
  known: (repairs) =>
    `we now know what ${counted('repair', repairs)} ${plural(repairs, 'holds', 'hold')} inside`,
}

const SHOWN: Readonly<Record<Parameters<CaptionWords['shown']>[0], (gate: Gate) => string>> = {
  before: (gate) => `before it was ${gate}`,
  after: (gate) => `after it was ${gate}`,
  layer: (gate) => gate,
  work: (gate) => gate,
  prepared: (gate) => `cleaned again before it was ${gate}`,
  'as left': () => 'as it was left',
}

const marks: DrawingWords['marks'] = {
  passed: 'passed',
  next: 'next',
  held: 'next, held',
  later: 'later',
  'not needed': 'not needed',
  'as found': 'left as found',
}

const drawing: DrawingWords = {
  marks,
  marked: (gates, mark) => `${joined(gates)} ${marks[mark]}`,
  outside: 'outside',
  inside: 'inside',
  off: 'off',
  closedOver: 'closed over',
  primed: 'primed',
  notSeen: 'not seen',
  notSeenYet: 'not seen yet',
  judgedBy: (text) => `not seen, judged by ${text}`,
  is: { sound: 'sound', surface: 'surface rust', pitted: 'pitted', holed: 'holed', gone: 'gone' },
  was: {
    sound: 'was sound',
    surface: 'had surface rust',
    pitted: 'was pitted',
    holed: 'was holed',
    gone: 'was gone',
  },
  left: (length) => `${length} left`,
  decided: { keep: 'kept', treat: 'to be treated', patch: 'to be patched', replace: 'to be replaced' },
  done: { keep: 'kept', treat: 'treated', patch: 'patched', replace: 'replaced' },
  cut: (layers) =>
    `Cut through ${layers.length} ${plural(layers.length, 'layer', 'layers')}, from the inside out: ${layers.join('; ')}.`,
  seamsSealed: 'Seams sealed.',
  legend: {
    hatching: 'Hatching is cut metal',
    hatchingNew: 'Hatching is cut metal, hatched the other way where it is new',
    dashed: (what) => `dashed: ${what.join(' or ')}`,
    rust: 'brown: rust',
    sealer: 'ochre: sealer',
    primer: 'green: primer',
    outerCoat: 'blue-green: outer coat',
    loadBearing: 'heavy line: load-bearing',
    enlarged: 'thickness enlarged',
  },
}

const paper: PaperWords = {
  report: (count, written) => `Report ${count}, ${written}`,
  subject: (week, count) => `Owner's week ${week}, report ${count}`,
  notIssued: 'not issued',
  draft: 'Draft, not issued',
  draftSentence: 'This is a draft. It was not issued and may still change.',
  recordHead: (head) => `Head of the car's record when this report was issued (SHA-256): ${head}`,
  record: (start) => `record ${start}`,
  page: (page, of) => `page ${page} of ${of}`,
  before: 'Before',
  after: 'After',
  photo: (taken, caption) => `Photo, ${taken}: ${caption}`,
  marked: countedMarks,
  unreadable: 'the file could not be read',
  lost: 'The file of this photo could not be read.',
  gates: (words) => `Gates: ${words}.`,
  table: (heads) => `Table: ${heads}`,
  legend: (words) =>
    `Every repair takes eight steps, from opened to painted. In the cuts: ${words.charAt(0).toLowerCase()}${words.slice(1)}.`,
}

const mail: MailWords = {
  subject: (title, workshop) => `${title} (${workshop})`,
  paragraphs: (owner, title) => [
    `Dear ${owner},`,
    `Our report on your car is attached as a PDF: ${title}.`,
    'If it asks you something, please answer this e-mail.',
  ],
}

export const english = {
  tag: 'en-GB',
  name: 'English',
  figures,
  letter,
  opening,
  needs,
  found,
  done,
  trouble,
  decided,
  stands,
  hours: hoursWords,
  know,
  next,
  ready,
  causes: movedCauses,
  captions: { shown: (shows, gate) => SHOWN[shows](gate) },
  drawing,
  paper,
  mail,
} as const satisfies OwnerLanguage

/** The trade's words that other letters of the workshop use, all of them in English. */
export const tradeWords = { gradeMeanings, findingKinds, gateWorks } as const
