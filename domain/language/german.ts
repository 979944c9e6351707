/*
 * German, whole: over 300 lines because a language is one file, in the order of its interface. Typed words keep their
 * letters, as nouns are written with a capital; names stand behind a colon or in quotes, as their gender is not known.
 */
import type { Decision, FindingKind, Grade, ReworkCause } from '../facts/shapes.ts'
import type { HoldCode } from '../facts/work-facts.ts'
import type { Gate } from '../gates.ts'
import type { PlanFault } from '../plan/plan.ts'
import { clause, ended } from '../report/sentences.ts'
import { capital } from '../text/words.ts'
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
  HeldBy,
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

const number = numbersOf('de-DE')
const plural = pluralOf('de-DE')
const joined = listOf('de-DE')
const dateOf = datesOf('de-DE', 'long')

const hours = (value: number): string => `${number(value, 1)} Std.`

/** 'a, b und c' of parts that may hold commas themselves, though not within figures: then 'a; b sowie c'. */
function list(parts: readonly string[]): string {
  if (parts.length < 2 || !parts.some((part) => part.includes(', '))) return joined(parts)
  return `${parts.slice(0, -1).join('; ')} sowie ${parts.at(-1)}`
}

/** 'eine Reparatur', 'drei Reparaturen', '14 Reparaturen'; `one` brings its article in its case. */
const counted = (count: number, one: string, many: string): string =>
  plural(count, one, `${inWords(count)} ${many}`)

const repairs = (count: number): string => counted(count, 'eine Reparatur', 'Reparaturen')

/** In words up to twelve. */
const inWords = (count: number): string => NUMBERS[count] ?? String(count)

const NUMBERS = [
  'keine',
  'ein',
  'zwei',
  'drei',
  'vier',
  'fünf',
  'sechs',
  'sieben',
  'acht',
  'neun',
  'zehn',
  'elf',
  'zwölf',
]

const inside = (text: string): string => clause(text)
const quoted = (text: string): string => `„${text}“`
const titled = (title: string): string => quoted(clause(title))

const figures: FigureWords = {
  hours,
  number,
  mm: (value, decimals) => `${number(value, decimals)} mm`,
  day: (date, currentYear) => {
    const { weekday, day, month, year } = dateOf(date)
    return `${weekday}, ${day}. ${month}${Number(year) === currentYear ? '' : ` ${year}`}`
  },
  moreOrLess: (value) => `${hours(Math.abs(value))} ${value < 0 ? 'weniger' : 'mehr'}`,
  list,
  andMore: (count) => `und ${inWords(count)} weitere`,
  quoted,
  inside,
}

const letter: LetterWords = {
  title: (car, shell) => `${car}, Karosserie ${shell}`,
  subtitle: (week, monday, sunday) => `Woche ${week}, ${dayRange(monday, sunday)}`,
  greeting: (owner) => `Guten Tag, ${owner}!`,
  erased: '(Name gelöscht)',
  corrects: (report) => `Dieser Bericht berichtigt Bericht ${report} über dieselbe Woche und ersetzt ihn.`,
  morePhotos: 'Weitere Fotos',
  informs: 'Dieser Bericht informiert: Er sagt, was wir vorgefunden und getan haben. Er bescheinigt nichts.',
  loadBearing:
    'Reparaturen an tragenden Teilen, besonders nahe den Verankerungen von Gurten, Lenkung, Bremsen und Fahrwerk, müssen in vielen Ländern geprüft werden: Halten Sie sich an die örtlichen Vorschriften und lassen Sie die Reparaturen von einer zugelassenen Prüfstelle abnehmen.',
}

/** '16. bis 23. Dezember 2026', '28. November bis 3. Dezember 2026', '28. Dezember 2026 bis 3. Januar 2027' */
function dayRange(from: string, to: string): string {
  const [first, last] = [dateOf(from), dateOf(to)]
  const begin =
    first.year !== last.year
      ? `${first.day}. ${first.month} ${first.year}`
      : first.month === last.month
        ? `${first.day}.`
        : `${first.day}. ${first.month}`
  return `${begin} bis ${last.day}. ${last.month} ${last.year}`
}

/** ' und wird am Freitag, 4. Dezember zurückerwartet', or that it has not come on that day. */
const backWords = ({ day, isOver }: Back): string =>
  isOver ? `; sie wurde am ${day} zurückerwartet und ist noch nicht da` : ` und wird am ${day} zurückerwartet`

const opening: OpeningWords = {
  first: ({ isWarranty, day, repairs: listed }) => {
    const what = isWarranty ? 'zu diesem Gewährleistungsauftrag' : 'zu diesem Auftrag'
    const began = `Dies ist unser erster Bericht ${what}, der am ${day} begonnen hat.`
    if (listed === null) return began
    return listed === 0
      ? `${began} Noch ist keine Reparatur aufgenommen.`
      : `${began} ${capital(repairs(listed))} ${plural(listed, 'ist', 'sind')} aufgenommen.`
  },
  did: (clauses) => `Diese Woche haben wir ${list(clauses)}.`,
  steps: (steps, on) =>
    `${counted(steps, 'einen Arbeitsschritt', 'Arbeitsschritte')} an ${counted(on, 'einer Reparatur', 'Reparaturen')} abgeschlossen`,
  tasks: (count) => `${counted(count, 'eine Arbeit', 'Arbeiten')} am ganzen Auto erledigt`,
  triedFit: 'die Passung der Blechteile geprüft',
  sentAway: 'die Karosserie außer Haus gegeben',
  sentAwayAndBack: 'die Karosserie außer Haus gegeben und zurückbekommen',
  hadBack: 'die Karosserie zurückbekommen',
  tookBack: (steps) => `${counted(steps, 'einen Arbeitsschritt', 'Arbeitsschritte')} zurückgenommen`,
  found: (things) => `${counted(things, 'einen wichtigen Befund', 'wichtige Befunde')} aufgenommen`,
  worked: (spent) => `${spent} gearbeitet`,
  redone: 'Ein Teil davon war Nacharbeit.',
  redoneWhy: 'Ein Teil davon war Nacharbeit; den Grund nennen wir weiter unten.',
  wentOn: 'Diese Woche ging die Arbeit weiter, abgeschlossen wurde nichts.',
  quiet: (reason) => `Diese Woche haben wir nicht an Ihrem Auto gearbeitet: ${capital(reason)}`,
  notAgreed: 'der Auftrag ist noch nicht vereinbart.',
  notBegun: 'der Auftrag ist vereinbart, die Arbeit hat noch nicht begonnen.',
  paused: (day, reason) => `die Arbeit ruht seit ${day}.${reason === '' ? '' : ` ${reason}`}`,
  readyToHandOver: 'die Arbeit ist abgeschlossen, das Auto steht zur Übergabe bereit.',
  isFinished: 'die Arbeit ist abgeschlossen.',
  away: (what, back) => `die Karosserie ist außer Haus (${inside(what)})${backWords(back)}.`,
  nothingOpen: 'es ist keine Arbeit mehr offen.',
  waitsItsTurn: 'die Arbeit ist noch nicht an der Reihe; am Auto selbst hält sie nichts auf.',
  waits: 'die Arbeit wartet.',
  finished: (day) => `Die Arbeit wurde am ${day} abgeschlossen; das Auto steht zur Übergabe bereit.`,
  delivered: (day) => `Das Auto wurde am ${day} übergeben. Dies ist unser letzter Bericht zu diesem Auftrag.`,
  decisions: (count) =>
    `${capital(counted(count, 'eine Entscheidung', 'Entscheidungen'))} ${plural(count, 'wartet', 'warten')} auf Sie: Bitte lesen Sie ${quoted(needs.heading)}.`,
}

/** What stands under it is pointed to from elsewhere. */
const KNOW_HEADING = 'Was Sie wissen sollten'

const needs: NeedsWords = {
  heading: 'Was wir von Ihnen brauchen',
  asked: (day) => `Wir haben Sie am ${day} gefragt.`,
  takes: (value, names, doubt) => {
    const where = names.length === 0 ? '' : ` (${list(names)})`
    const takes = `Das sind ${figures.moreOrLess(value)} als vereinbart${where}.`
    return doubt === null
      ? takes
      : `${takes} Es können mindestens ${hours(doubt.low)} und höchstens ${hours(doubt.high)} werden.`
  },
  ifNot: (text) => ended(`Wenn Sie sich dagegen entscheiden: ${inside(text)}`),
  doYouAgree: 'Bitte sagen Sie uns, ob Sie einverstanden sind.',
  mayWe: 'Bitte sagen Sie uns, ob wir das ausführen dürfen.',
  estimate: 'Der Kostenvoranschlag',
  estimateWaits: (total, names) =>
    names.length > 6
      ? `${total} unseres Kostenvoranschlags, verteilt auf ${inWords(names.length)} Reparaturen und Arbeiten, warten auf Ihre Antwort.`
      : `${total} unseres Kostenvoranschlags warten auf Ihre Antwort: ${list(names)}.`,
  whichMayWe: 'Bitte sagen Sie uns, was davon wir ausführen dürfen. Vorher beginnen wir nicht damit.',
}

/** Behind a layer's name and a colon. */
const layerGrades: Readonly<Record<Grade, string>> = {
  sound: 'gesund',
  surface: 'nur an der Oberfläche angerostet',
  pitted: 'narbig, also angefressen, aber nicht durch',
  holed: 'stellenweise durchgerostet',
  gone: 'vergangen, davon ist nichts zu erhalten',
}

const metalIs: Readonly<Record<Grade, string>> = {
  sound: 'ist gesund',
  surface: 'ist nur an der Oberfläche angerostet',
  pitted: 'ist narbig, also angefressen, aber nicht durch',
  holed: 'ist stellenweise durchgerostet',
  gone: 'ist vergangen; davon ist nichts zu erhalten',
}

const decisionPlans: Readonly<Record<Decision, string>> = {
  keep: 'Hier bleibt alles, wie es ist.',
  treat: 'Wir reinigen und behandeln das Blech.',
  patch: 'Wir trennen das schadhafte Blech heraus und setzen ein neues Stück ein.',
  replace: 'Wir fertigen Ersatz an.',
}

const decisionsDone: Readonly<Record<Decision, string>> = {
  keep: 'Hier bleibt alles, wie es ist.',
  treat: 'Wir haben das Blech gereinigt und behandelt.',
  patch: 'Wir haben ein neues Stück eingesetzt.',
  replace: 'Wir haben Ersatz angefertigt.',
}

/** What was found, as an object. */
const findingKinds: Readonly<Record<FindingKind, string>> = {
  corrosion: 'Rost',
  'earlier patch': 'ein früher eingesetztes Blech',
  filler: 'Spachtelmasse',
  crack: 'einen Riss',
  crease: 'einen Knick',
  distortion: 'verzogenes Blech',
}

const found: FoundWords = {
  heading: 'Was wir vorgefunden haben',
  layerGrade: (layer, grade) => `${capital(clause(layer))}: ${layerGrades[grade]}.`,
  layerNotSeen: (layer, judgedBy) =>
    ended(
      `${capital(clause(layer))}: nicht einsehbar${judgedBy ? `; so haben wir geurteilt: ${inside(judgedBy)}` : ''}`,
    ),
  thinnest: (left, of) => `An der dünnsten Stelle sind von ${of} noch ${left} übrig.`,
  layerPlan: (_, decision) => decisionPlans[decision],
  layerDone: (_, decision) => decisionsDone[decision],
  finding: ({ day, kind, layer, isAlike, extent }) => {
    const where = layer === null ? '' : ` (${clause(layer)})`
    const alike = isAlike ? ', ebenso schlimm' : ''
    return ended(`Am ${day} fanden wir ${findingKinds[kind]}${where}${alike}: ${inside(extent)}`)
  },
  metalThere: (grade) => `Das Blech dort ${metalIs[grade]}.`,
  needs: (text) => ended(`Was nötig ist: ${inside(text)}`),
  beyondAgreed: {
    owner: 'Das geht über das Vereinbarte hinaus; wir warten auf Ihre Antwort.',
    insurer: 'Das geht über das Vereinbarte hinaus; wir warten auf die Antwort der Versicherung.',
    workshop:
      'Das geht über das Vereinbarte hinaus; ob wir es auf eigene Kosten tun, entscheiden wir selbst.',
  },
  isAgreed: 'Die zusätzliche Arbeit ist vereinbart.',
  isOurs: 'Die zusätzliche Arbeit bezahlen wir.',
  cameOff: (name, reason) => ended(`${capital(name)} entfällt: ${inside(reason)}`),
  split: (name, second, reason) =>
    ended(
      `${name === null ? 'Eine Reparatur' : capital(name)} wurde in zwei Reparaturen geteilt; die zweite heißt ${quoted(second)}. Der Grund: ${inside(reason)}`,
    ),
  cameOn: (names) =>
    `${capital(repairs(names.length))} ${plural(names.length, 'kam', 'kamen')} hinzu: ${list(names)}.`,
}

const COATS = {
  protective: 'die Schutzbeschichtung aufgebracht',
  outer: 'die Außenlackierung aufgebracht',
  temporary: 'einen vorläufigen Anstrich bis zur endgültigen Lackierung aufgebracht',
}

/** Layers that all stay need no new metal, and some need only cleaning. */
const METALS = {
  new: 'das neue Blech angefertigt und eingesetzt',
  treated: 'das Blech gereinigt und behandelt',
  kept: 'die Arbeit am Blech im Inneren abgeschlossen',
}

/** What was done by passing a gate, behind 'haben wir'. */
function passedWords({ gate, drainsAsked, hasManyLayers, metal, coat }: PassedGate): string {
  switch (gate) {
    case 'opened':
      return 'die Stelle geöffnet'
    case 'assessed':
      return 'sie Schicht für Schicht befundet'
    case 'fabricated':
      return METALS[metal]
    case 'sealed':
      return drainsAsked ? 'die Nähte bei freien Abläufen abgedichtet' : 'die Nähte abgedichtet'
    case 'primed':
      return 'das blanke Blech grundiert'
    case 'trial-fitted':
      return 'die Nachbarteile mit gutem Ergebnis anprobiert'
    case 'welded':
      return hasManyLayers ? 'das Deckblech aufgeschweißt' : 'das Teil eingeschweißt'
    case 'painted':
      return coat === null ? 'die Stelle lackiert' : COATS[coat]
  }
}

/** Where a gate stands that was worked on and is not done. */
const gateNotYet: Readonly<Record<Gate, string>> = {
  opened: 'die Stelle ist noch nicht offen',
  assessed: 'noch sind nicht alle Schichten befundet',
  fabricated: 'noch ist nicht alles neue Blech eingesetzt',
  sealed: 'noch sind nicht alle Nähte abgedichtet',
  primed: 'noch ist nicht alles blanke Blech grundiert',
  'trial-fitted': 'die Nachbarteile sind noch nicht anprobiert',
  welded: 'die Stelle ist noch nicht zugeschweißt',
  painted: 'die Lackierung fehlt noch',
}

/** The work of a gate as a noun without article. */
const gateWorks: Readonly<Record<Gate, string>> = {
  opened: 'Öffnen',
  assessed: 'Befunden Schicht für Schicht',
  fabricated: 'Anfertigen und Einsetzen von neuem Blech',
  sealed: 'Abdichten der Nähte',
  primed: 'Grundieren des blanken Blechs',
  'trial-fitted': 'Anprobieren der Nachbarteile',
  welded: 'Zuschweißen',
  painted: 'Lackieren',
}

const taskTold = ({ name, by, day }: TaskTold): string =>
  `${clause(name)}${by.length === 0 ? '' : `, ausgeführt von ${joined(by)}`}${day === null ? '' : ` (${day})`}`

const done: DoneWords = {
  heading: 'Was wir getan haben',
  onDay: (day, passed) => `Am ${day} haben wir ${list(passed.map(passedAmong))}.`,
  people: (names) => `Ausgeführt wurde die Arbeit von ${list(names)}.`,
  closedAsFound: `Die Stelle ist wie vorgefunden geschlossen; was das heißt, steht unter ${quoted(KNOW_HEADING)}.`,
  isFinished: 'Die Reparatur ist fertig.',
  isClosed: 'Die Stelle ist jetzt geschlossen.',
  workedOn: (gate) =>
    gate === null ? 'Wir haben daran gearbeitet.' : `Wir haben daran gearbeitet; ${gateNotYet[gate]}.`,
  notNeeded: (gate, reason) => ended(`${gateWorks[gate]} ist hier nicht nötig: ${inside(reason)}`),
  tasksDone: (tasks) => `Arbeiten am ganzen Auto: ${list(tasks.map(taskTold))}.`,
  tasksGoing: (tasks) => `Arbeiten, die weitergehen: ${list(tasks.map(taskTold))}.`,
  wentTo: (firm, day, what) => ended(`Die Karosserie ging am ${day} an ${firm}: ${inside(what)}`),
  backExpected: (day) => `Sie wird am ${day} zurückerwartet.`,
  cameBack: (firm, day) => `Die Karosserie kam am ${day} von ${firm} zurück.`,
}

/** 'sie' needs something before it that it stands for. */
const passedAmong = (passed: PassedGate, index: number): string =>
  passed.gate === 'assessed' && index === 0 ? 'die Stelle Schicht für Schicht befundet' : passedWords(passed)

/** Clauses behind 'weil'. */
const causes: Readonly<Record<ReworkCause, string>> = {
  workmanship: 'unsere eigene Arbeit nicht gut genug war',
  material: 'das Material fehlerhaft war',
  fit: 'es nicht passte',
  measurement: 'wir falsch gemessen hatten',
  'damaged after': 'es nachträglich beschädigt wurde',
  'changed mind': 'etwas anderes gewünscht wurde',
  'found later': 'später etwas gefunden wurde',
  away: 'die Behandlung außer Haus die Arbeit zunichtegemacht hat',
}

/** What the work of a gate leaves behind, as something that can be taken back. */
const gateResults: Readonly<Record<Gate, string>> = {
  opened: 'das Öffnen',
  assessed: 'die Befundung der Schichten',
  fabricated: 'das neue Blech',
  sealed: 'die Abdichtung der Nähte',
  primed: 'die Grundierung',
  'trial-fitted': 'die Anprobe der Nachbarteile',
  welded: 'die abschließende Schweißung',
  painted: 'die Lackierung',
}

const trouble: TroubleWords = {
  heading: 'Was nicht nach Plan lief',
  rework: (value, stated) => {
    const [first] = stated
    const went = `${value} dieser Woche gingen in Arbeit, die schon einmal getan war`
    if (first === undefined) return `${went}.`
    return stated.length === 1
      ? `${went}, weil ${causes[first[0]]}.`
      : `${went}: ${stated.map(([cause, spent]) => `${spent}, weil ${causes[cause]}`).join('; ')}.`
  },
  gateTakenBack: ({ name, day, gate, cause, reason, isDoneAgain }) =>
    `${name}: Am ${day} haben wir ${gateResults[gate]} zurückgenommen, weil ${causes[cause]} (${inside(reason)}).${isDoneAgain ? ' Inzwischen ist der Schritt neu ausgeführt.' : ''}`,
  taskTakenBack: ({ name, day, cause, reason }) =>
    `${name}: Am ${day} haben wir neu damit begonnen, weil ${causes[cause]} (${inside(reason)}).`,
  treatmentUndid: (count, reason) =>
    ended(
      `Die Behandlung außer Haus hat Arbeit an ${counted(count, 'einer Reparatur', 'Reparaturen')} zunichtegemacht, die neu getan werden muss: ${inside(reason)}`,
    ),
  badFit: ({ name, times, day, note, goodOn }) => {
    const often = times <= 12 ? `${inWords(times)}mal` : `${times}-mal`
    const when = times === 1 ? `am ${day}` : `${often}, zuletzt am ${day},`
    const why = inside(note) === '' ? '' : `: ${inside(note)}`
    const bad = ended(`${capital(clause(name))}: Die Passung war ${when} nicht gut${why}`)
    if (goodOn === null) return bad
    return `${bad} ${goodOn === day ? 'Später an diesem Tag war sie gut.' : `Am ${goodOn} war sie gut.`}`
  },
  badPart: (name, reason) =>
    ended(
      `Ein Teil haben wir nicht angenommen${name === null ? '' : ` (${titled(name)})`}${inside(reason) === '' ? '' : `: ${inside(reason)}`}`,
    ),
}

const decided: DecidedWords = {
  heading: 'Was entschieden wurde',
  accepted: (payer, value, day) =>
    payer === 'owner'
      ? `Sie haben am ${day} ${value} des Kostenvoranschlags angenommen.`
      : `Die Versicherung hat am ${day} ${value} des Kostenvoranschlags angenommen.`,
  answered: ({ payer, isAccepted, isChanged, title, day, hours: value }) => {
    const what = `${titled(title)} (${value})`
    if (payer === 'workshop')
      return isAccepted
        ? `Wir haben uns am ${day} entschieden, ${what} auf eigene Kosten auszuführen.`
        : `Wir haben uns am ${day} dagegen entschieden, ${what} auf eigene Kosten auszuführen.`
    const who = payer === 'owner' ? 'Sie haben' : 'Die Versicherung hat'
    return `${who} ${what} am ${day} ${isAccepted ? 'angenommen' : 'abgelehnt'}${isChanged ? ', mit Änderungen' : ''}.`
  },
  atOurCost: (title, reason) => ended(`Wir führen ${titled(title)} auf eigene Kosten aus: ${inside(reason)}`),
  leftOut: (title, reason) =>
    ended(`${titled(title)} entfällt, stattdessen wird weniger getan: ${inside(reason)}`),
}

/** The gate that comes next, in few words: it stands on one line of half a page. */
const gateNext: Readonly<Record<Gate, string>> = {
  opened: 'das Öffnen',
  assessed: 'die Befundung',
  fabricated: 'das neue Blech',
  sealed: 'das Abdichten',
  primed: 'das Grundieren',
  'trial-fitted': 'die Anprobe',
  welded: 'das Verschweißen',
  painted: 'die Lackierung',
}

const stands: StandsWords = {
  heading: 'Wie es um jede Reparatur steht',
  closedAsFound: 'Die Stelle wurde wie vorgefunden geschlossen.',
  isFinished: 'Die Reparatur ist fertig.',
  steps: (count, of) =>
    count === 0
      ? 'Noch ist kein Schritt getan.'
      : `${capital(plural(count, 'einer', inWords(count)))} von ${inWords(of)} Schritten ${plural(count, 'ist', 'sind')} getan.`,
  next: (gate) => `Als Nächstes: ${gateNext[gate]}.`,
  groups: {
    finished: 'Fertig',
    'closed as found': 'Wie vorgefunden geschlossen',
    'in work': 'In Arbeit',
    'not begun': 'Nicht begonnen',
  },
}

const payNoMore = 'Darüber hinaus bezahlen Sie nichts, dem Sie nicht vorher zugestimmt haben.'
const aboveIsOurs = 'Die Stunden über der Obergrenze gehen zu unseren Lasten; Sie bezahlen sie nicht.'
/** Behind 'im Rahmen dessen,'. */
const whatIsAgreed = (isAsked: boolean): string =>
  isAsked ? 'was vereinbart und angefragt ist' : 'was vereinbart ist'

const hoursWords: HoursWords = {
  heading: 'Stunden',
  thisWeek: 'diese Woche',
  toDate: 'bisher',
  agreed: 'vereinbart',
  allWork: 'Gesamt',
  waiting: (value) => `Weitere ${value} sind geschätzt und noch nicht vereinbart.`,
  capped: (value) => `Der Preis ist gedeckelt: Höchstens ${value} werden berechnet.`,
  alsoPaid: (payers) => {
    const names = payers.map((payer) => (payer === 'insurer' ? 'die Versicherung' : 'unsere Werkstatt'))
    return `Diese Zahlen enthalten auch, was ${joined(names)} ${plural(names.length, 'bezahlt', 'bezahlen')}.`
  },
  whole: (low, high) =>
    low === high
      ? `Für den ganzen Auftrag erwarten wir etwa ${high} Std. Arbeit.`
      : `Für den ganzen Auftrag erwarten wir etwa ${low} Std. und in vier von fünf Fällen nicht mehr als ${high} Std. Arbeit.`,
  countsWaiting: 'Darin ist auch enthalten, was auf eine Antwort wartet.',
  within: (isAsked) => `Das liegt im Rahmen dessen, ${whatIsAgreed(isAsked)}.`,
  mayExceed: (isAsked) =>
    `Das bleibt voraussichtlich im Rahmen dessen, ${whatIsAgreed(isAsked)}; sicher ist es nicht. ${payNoMore}`,
  exceeds: (figure, isAsked) =>
    `Das sind etwa ${figure} Std. mehr, als ${isAsked ? 'vereinbart und angefragt' : 'vereinbart'} ist. ${payNoMore}`,
  withinCap: 'Das liegt unter der Obergrenze.',
  mayExceedCap: (cap) =>
    `Das bleibt voraussichtlich unter der Obergrenze von ${cap}; sicher ist es nicht. ${aboveIsOurs}`,
  exceedsCap: (figure, cap) =>
    `Das sind etwa ${figure} Std. mehr, als die Obergrenze von ${cap} erlaubt. ${aboveIsOurs}`,
}

/** What a check that was set aside asks for. */
const checks: Readonly<Record<HoldCode, string>> = {
  order: 'die Reihenfolge der Arbeit',
  evidence: 'Fotos und Messwerte',
  'uncover first': 'was darüber liegt',
  'closed in order': 'was dahinter liegt',
  'fit together': 'die Passung zu den Nachbarteilen',
  support: 'eine geschlossene Seite der Karosserie',
  "owner's decision": 'die ausstehende Antwort',
  declined: 'die ablehnende Antwort',
  parts: 'ein Teil',
  curing: 'die Aushärtezeit',
  window: 'die Frist für die nächste Schicht',
  conditions: 'Temperatur und Luftfeuchte',
  'hot-work watch': 'die Brandwache',
  skill: 'die nötige Befähigung',
  'by hand': 'eine eigene Sperre',
  task: 'eine Arbeit, die vorausgeht',
  away: 'die Karosserie außer Haus',
}

const know: KnowWords = {
  heading: KNOW_HEADING,
  stopped: (title, reason) => ended(`Die Arbeit an ${titled(title)} ist eingestellt: ${inside(reason)}`),
  closedOver: (over, under) =>
    `${capital(over)} ist geschlossen, obwohl dahinter ${under} nicht fertig ist. Die Stelle muss wieder geöffnet werden.`,
  bothOpen: (one, other) =>
    `${capital(one)} und ${other} stehen auf verschiedenen Seiten offen, ohne dass die Karosserie abgestützt ist.`,
  wasClosedAsFound: (name, day) => `${name}: am ${day} wie vorgefunden geschlossen.`,
  closedAsFound: ({ name, day, payer, answer, protection, isLoadBearing }) =>
    [
      `${name}: am ${day} wie vorgefunden geschlossen. Der Schaden ist noch da.`,
      ended(
        `${payer === 'insurer' ? 'Die Antwort der Versicherung' : 'Ihre Antwort'} war: ${inside(answer)}`,
      ),
      ended(`Was zum Schutz getan werden könnte: ${inside(protection)}`),
      ...(isLoadBearing
        ? [
            'Es ist ein tragendes Teil: Lassen Sie es prüfen, bevor das Auto gefahren wird, und beachten Sie die örtlichen Vorschriften.',
          ]
        : []),
    ].join(' '),
  setAside: ({ name, day, code, gate, reason }) =>
    ended(
      `${name}: Am ${day} hat die Werkstattleitung vor dem Schritt ${quoted(gateNames[gate])} eine Prüfung ausgesetzt (${checks[code]}). Der Grund: ${inside(reason)}`,
    ),
}

/** The gates as they stand below a strip of marks. */
const gateNames: Readonly<Record<Gate, string>> = {
  opened: 'geöffnet',
  assessed: 'befundet',
  fabricated: 'angefertigt',
  sealed: 'abgedichtet',
  primed: 'grundiert',
  'trial-fitted': 'anprobiert',
  welded: 'verschweißt',
  painted: 'lackiert',
}

/** What is to be done before a gate can be passed; follows the repair's name and a colon. */
const gateAims: Readonly<Record<Gate, string>> = {
  opened: 'öffnen',
  assessed: 'Schicht für Schicht befunden',
  fabricated: 'neues Blech anfertigen und einsetzen',
  sealed: 'Nähte abdichten',
  primed: 'blankes Blech grundieren',
  'trial-fitted': 'Nachbarteile anprobieren',
  welded: 'zuschweißen',
  painted: 'lackieren',
}

const PART_STATES = {
  needed: 'ist noch nicht bestellt',
  ordered: 'ist bestellt',
  received: 'ist da und muss erst geprüft werden',
  rejected: 'war nicht gut genug und muss neu beschafft werden',
  checked: 'ist da',
  fitted: 'ist eingebaut',
} as const

/** 'ein Teil, „Hinge“, ist bestellt und wird am Mittwoch, 9. Dezember erwartet.' */
function partWords({ name, state, expected }: WaitedPart): string {
  const how =
    state !== 'ordered' || expected === null
      ? PART_STATES[state]
      : expected.isOver
        ? `wurde am ${expected.day} erwartet und ist noch nicht da`
        : `ist bestellt und wird am ${expected.day} erwartet`
  return `ein Teil (${titled(name)}) ${how}.`
}

/** By what holds it, as the screens' own words are English. */
function heldWords({ code, other, byHand }: HeldBy): string {
  switch (code) {
    case 'by hand':
      if (byHand === null) return 'der Auftrag ist noch nicht in Arbeit.'
      return byHand.day === null
        ? ended(`die Arbeit wird angehalten: ${inside(byHand.words)}`)
        : `die Arbeit wird angehalten: ${inside(byHand.words)}; erwartet am ${byHand.day}.`
    case 'order':
      return 'vorher sind andere Schritte an der Reihe.'
    case 'uncover first':
      return other === null
        ? 'was darüber liegt, muss zuerst geöffnet werden.'
        : `darüber liegt ${quoted(other)} und muss zuerst geöffnet werden.`
    case 'closed in order':
      return other === null
        ? 'die Schichten dahinter sind noch nicht fertig.'
        : `dahinter ist ${quoted(other)} noch nicht fertig.`
    case 'fit together':
      return 'die Nachbarteile müssen erst gemeinsam anprobiert werden.'
    case 'conditions':
      return 'Temperatur und Luftfeuchte müssen erst stimmen.'
    case 'hot-work watch':
      return 'die Brandwache nach der Arbeit mit Hitze läuft noch.'
    case 'curing':
      return 'das Material muss erst aushärten.'
    case 'evidence':
      return 'Fotos und Messwerte fehlen noch.'
    default:
      return 'die Arbeit wartet.'
  }
}

const next: NextWords = {
  heading: 'Wie es weitergeht',
  canGoOn: 'Damit können wir weitermachen:',
  thisWaits: 'Das wartet:',
  allWork: 'Alle Arbeit an der Karosserie',
  aim: (name, gate) => `${name}: ${gateAims[gate]}.`,
  waits: (name, reason) => `${name}: ${capital(reason)}`,
  notEstimated: 'die Arbeit ist noch nicht veranschlagt und vereinbart.',
  ourDecision: 'wir haben darüber noch nicht entschieden.',
  answer: (payer, title) =>
    `die Arbeit wartet auf ${payer === 'owner' ? 'Ihre Antwort' : 'die Antwort der Versicherung'} ${title === null ? 'zum Kostenvoranschlag' : `zu ${titled(title)}`}.`,
  declined: 'die zusätzliche Arbeit wurde abgelehnt; wie es weitergeht, ist noch offen.',
  support: 'erst muss die andere Seite geschlossen sein: Eine Seite der Karosserie bleibt immer ganz.',
  away: (back) => `die Karosserie ist außer Haus${back === null ? '' : backWords(back)}.`,
  window:
    'die Oberfläche muss erst wieder gereinigt werden, weil die Frist für die nächste Schicht vorbei ist.',
  review: 'wir müssen den Kostenvoranschlag erst noch einmal prüfen.',
  part: (part) => (part === null ? 'ein Teil fehlt noch.' : partWords(part)),
  task: (name) => `vorher ist ${titled(name)} an der Reihe.`,
  curing: (day) => `das Material muss bis ${day} aushärten.`,
  skill: 'es fehlt jemand mit der nötigen Befähigung.',
  held: heldWords,
}

const PART_OF_IT = 'ein Teil der Arbeit lässt sich nicht planen'

const faultReasons: Readonly<Record<PlanFault['code'], string>> = {
  'no skill': 'einen Teil der Arbeit kann hier zurzeit niemand ausführen',
  'no bay': 'für einen Teil der Arbeit fehlt ein Platz',
  'no fixture': 'für einen Teil der Arbeit fehlt eine Vorrichtung',
  'not braced': 'die Karosserie muss ausgesteift werden, bevor sie bewegt werden kann',
  'not authorised': 'ein Teil der Arbeit ruht, bis vereinbart ist, wie es weitergeht',
  'closed over': 'ein Teil der Arbeit liegt unter geschlossenem Blech, das wieder geöffnet werden muss',
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
  days % 7 === 0 ? counted(days / 7, 'eine Woche', 'Wochen') : counted(days, 'einen Tag', 'Tage')

const ready: ReadyWords = {
  heading: 'Wann es fertig wird',
  whilePaused: 'Solange die Arbeit ruht, können wir kein Datum für ihr Ende nennen.',
  by: (late) => `Wir rechnen damit, bis ${late} fertig zu sein.`,
  between: (early, late) =>
    `Wir rechnen damit, bis ${late} fertig zu sein, vielleicht schon am ${early}: Das spätere Datum wird in vier von fünf Fällen eingehalten, das frühere in der Hälfte.`,
  countsOnAnswers: 'Dabei zählen wir auf Ihre baldigen Antworten.',
  countsOnAnswer: (title, day) =>
    day === null
      ? `Dabei zählen wir auf Ihre baldige Antwort zu ${titled(title)}.`
      : `Dabei zählen wir auf Ihre Antwort zu ${titled(title)} bis ${day}.`,
  noDateBefore: 'Ende letzter Woche konnten wir noch kein Datum nennen.',
  unchanged: 'Das hat sich seit Ende letzter Woche nicht geändert.',
  moved: (was, days) =>
    `Ende letzter Woche rechneten wir mit ${was}: Jetzt ist es ${daysWords(Math.abs(days))} ${days > 0 ? 'später' : 'früher'}.`,
  noSingleCause:
    'Einen einzelnen Grund dafür gibt es nicht: Es folgt daraus, wie die Arbeit in unserer Werkstatt vorankam.',
  causes: (clauses) => `Was dazwischenkam: ${capital(clauses.join('; '))}.`,
  noDate: (faults) => {
    const reasons = [...new Set(faults.map((code) => faultReasons[code]))]
    return `Wir können noch kein Datum nennen: ${capital(reasons.length === 0 ? PART_OF_IT : reasons.join('; '))}.`
  },
  expectedBefore: (was) => `Ende letzter Woche rechneten wir mit ${was}.`,
  promised: (day) => `Der zugesagte Termin ist ${day}.`,
  promisedAsBefore: (day) => `Der zugesagte Termin ist unverändert ${day}.`,
  promisedBeforePause: (day) => `Der zugesagte Termin, ${day}, stammt aus der Zeit vor der Pause.`,
  promiseSet: (day) => `Der zugesagte Termin steht jetzt fest: ${day}.`,
  promiseWithdrawn: (was) =>
    `Der zugesagte Termin, ${was}, wurde diese Woche zurückgezogen; ein neuer steht noch nicht fest.`,
  promiseMoved: (was, now) => `Der zugesagte Termin wurde diese Woche verlegt: von ${was} auf ${now}.`,
  promisePassed: 'Dieser Tag ist vorbei, und das Auto ist nicht fertig.',
  willKeep: 'Nach heutigem Stand halten wir ihn ein.',
  mayKeep: 'Nach heutigem Stand können wir ihn vielleicht einhalten, sicher ist es nicht.',
  willNotKeep: 'Nach heutigem Stand werden wir ihn nicht einhalten; das tut uns leid.',
}

const movedCauses: CauseWords = {
  listed: (count) => `${repairs(count)} ${plural(count, 'kam', 'kamen')} hinzu`,
  unlisted: (count) => `${repairs(count)} ${plural(count, 'entfiel', 'entfielen')}`,
  redone: 'ein Teil der Arbeit musste neu getan werden',
  wentAway: (what) => `die Karosserie ging außer Haus (${inside(what)})`,
  treatmentUndid: 'die Behandlung außer Haus hat einen Teil der Arbeit zunichtegemacht',
  held: 'ein Teil der Arbeit musste angehalten werden',
  elsewhere: {
    people: 'hier arbeiten weniger Leute, als wir gerechnet hatten',
    days: 'die Arbeitstage unserer Werkstatt wurden geändert',
    'longer days': 'an manchen Tagen arbeiten wir länger',
    bays: 'ein Platz in unserer Werkstatt fällt aus',
  },
  damage: 'wir fanden Schäden, die vorher nicht zu sehen waren',
  lookedAgain: 'wir haben neu geschätzt, wie viel Arbeit noch bleibt',
  paused: 'die Arbeit ruhte eine Zeit lang',
  takenUp: 'die Arbeit wurde aufgenommen',
  agreed: (title, value) => `${titled(title)} wurde vereinbart (${value})`,
  atOurCost: (title) => `wir führen ${titled(title)} auf eigene Kosten aus`,
  leftOut: (title) => `${titled(title)} entfiel`,
  stopped: (title) => `die Arbeit an ${titled(title)} wurde eingestellt`,
  raised: (title) => `${titled(title)} kam auf und wartet auf eine Antwort`,
  badPart: (name) => `ein Teil war nicht gut genug${name === null ? '' : ` (${titled(name)})`}`,
  partMoved: (name, way) =>
    `ein Teil kommt ${way === 'later' ? 'später' : 'früher'} als angekündigt${name === null ? '' : ` (${titled(name)})`}`,
  known: (count) =>
    count === 1
      ? 'wir wissen jetzt, wie es im Inneren einer Reparatur aussieht'
      : `wir wissen jetzt, wie es im Inneren von ${inWords(count)} Reparaturen aussieht`,
}

/** As a noun in the dative: 'vor dem Öffnen'. */
const gateActs: Readonly<Record<Gate, string>> = {
  opened: 'dem Öffnen',
  assessed: 'der Befundung',
  fabricated: 'dem Anfertigen',
  sealed: 'dem Abdichten',
  primed: 'dem Grundieren',
  'trial-fitted': 'der Anprobe',
  welded: 'dem Verschweißen',
  painted: 'dem Lackieren',
}

const SHOWN: Readonly<Record<Parameters<CaptionWords['shown']>[0], (gate: Gate) => string>> = {
  before: (gate) => `vor ${gateActs[gate]}`,
  after: (gate) => `nach ${gateActs[gate]}`,
  layer: (gate) => gateNames[gate],
  work: (gate) => gateNames[gate],
  prepared: (gate) => `erneut gereinigt vor ${gateActs[gate]}`,
  'as left': () => 'wie belassen',
}

const marks: DrawingWords['marks'] = {
  passed: 'erledigt',
  next: 'als Nächstes',
  held: 'als Nächstes, wartet',
  later: 'später',
  'not needed': 'nicht nötig',
  'as found': 'wie vorgefunden',
}

const DASHED = { off: 'abgenommen', 'not seen': 'nicht einsehbar', gone: 'vergangen' } as const

const drawing: DrawingWords = {
  marks,
  marked: (gates, mark) => `${joined(gates.map((gate) => gateNames[gate]))}: ${marks[mark]}`,
  outside: 'außen',
  inside: 'innen',
  off: 'abgenommen',
  closedOver: 'verschlossen',
  primed: 'grundiert',
  notSeen: 'nicht einsehbar',
  notSeenYet: 'noch nicht gesehen',
  judgedBy: (text) => `nicht einsehbar, beurteilt: ${text}`,
  is: {
    sound: 'gesund',
    surface: 'angerostet',
    pitted: 'narbig',
    holed: 'durchgerostet',
    gone: 'vergangen',
  },
  was: {
    sound: 'war gesund',
    surface: 'war angerostet',
    pitted: 'war narbig',
    holed: 'war durchgerostet',
    gone: 'war vergangen',
  },
  left: (length) => `noch ${length}`,
  decided: {
    keep: 'bleibt',
    treat: 'wird behandelt',
    patch: 'wird ausgebessert',
    replace: 'wird ersetzt',
  },
  done: { keep: 'bleibt', treat: 'behandelt', patch: 'ausgebessert', replace: 'ersetzt' },
  cut: (layers) =>
    `Schnitt durch ${counted(layers.length, 'eine Schicht', 'Schichten')}, von innen nach außen: ${layers.join('; ')}.`,
  seamsSealed: 'Nähte abgedichtet.',
  legend: {
    hatching: 'Schraffiert ist geschnittenes Blech',
    hatchingNew: 'Schraffiert ist geschnittenes Blech, neues in der anderen Richtung',
    dashed: (what) => `gestrichelt: ${what.map((each) => DASHED[each]).join(' oder ')}`,
    rust: 'braun: Rost',
    sealer: 'ocker: Dichtmasse',
    primer: 'grün: Grundierung',
    outerCoat: 'blaugrün: Außenlack',
    loadBearing: 'starke Linie: tragend',
    enlarged: 'Blechdicke vergrößert',
  },
}

const paper: PaperWords = {
  report: (count, written) => `Bericht ${count}, ${written}`,
  subject: (week, count) => `Wochenbericht ${week}, Bericht ${count}`,
  notIssued: 'nicht herausgegeben',
  draft: 'Entwurf, nicht herausgegeben',
  draftSentence: 'Dies ist ein Entwurf. Er wurde nicht herausgegeben und kann sich noch ändern.',
  recordHead: (head) => `Prüfsumme der Fahrzeugakte bei Herausgabe dieses Berichts (SHA-256): ${head}`,
  record: (start) => `Akte ${start}`,
  page: (page, of) => `Seite ${page} von ${of}`,
  before: 'Vorher',
  after: 'Nachher',
  photo: (taken, caption) => `Foto, ${taken}: ${caption}`,
  marked: ({ arrows, circles, lines }) =>
    `markiert: ${list([
      ...(arrows > 0 ? [`${arrows} ${plural(arrows, 'Pfeil', 'Pfeile')}`] : []),
      ...(circles > 0 ? [`${circles} ${plural(circles, 'Kreis', 'Kreise')}`] : []),
      ...(lines > 0 ? [`${lines} ${plural(lines, 'Linie', 'Linien')}`] : []),
    ])}`,
  unreadable: 'die Datei konnte nicht gelesen werden',
  lost: 'Die Datei dieses Fotos konnte nicht gelesen werden.',
  gates: (words) => `Schritte: ${words}.`,
  table: (heads) => `Tabelle: ${heads}`,
  legend: (words) =>
    `Jede Reparatur hat acht Schritte, von geöffnet bis lackiert. In den Schnitten: ${words}.`,
}

const mail: MailWords = {
  subject: (title, workshop) => `${title} (${workshop})`,
  paragraphs: (owner, title) => [
    `Guten Tag, ${owner}!`,
    `Anbei erhalten Sie unseren Bericht über Ihr Auto als PDF: ${title}.`,
    'Wenn der Bericht Sie etwas fragt, antworten Sie bitte auf diese E-Mail.',
  ],
}

export const german = {
  tag: 'de-DE',
  name: 'Deutsch',
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
