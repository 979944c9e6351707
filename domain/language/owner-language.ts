/*
 * All that the owner's week says, as one interface: over 300 lines because a language is one file, and what the compiler
 * asks of it stands in one place.
 */
import type { Decision, FindingKind, Grade, Payer, ReworkCause } from '../facts/shapes.ts'
import type { HoldCode } from '../facts/work-facts.ts'
import type { Gate } from '../gates.ts'
import type { MarkCounts } from '../photo-marks/photo-marks.ts'
import type { PlanFault } from '../plan/plan.ts'
import type { ElsewhereChange } from '../report/week-expected.ts'
import type { MarkKind } from '../views/shared-views.ts'

/**
 * One language of the owner's week. Messages are whole sentences with their full stop unless said otherwise. What people
 * typed (names, titles, reasons) comes as it was typed and stays so: no article is put before a name, as its gender and number
 * are not known. Days come as the language's own `figures.day` writes them.
 */
export interface OwnerLanguage {
  /** BCP 47, for PDF and HTML: 'en-GB' */
  readonly tag: string
  /** Its own name, for choosing it. */
  readonly name: string
  readonly figures: FigureWords
  readonly letter: LetterWords
  readonly opening: OpeningWords
  readonly needs: NeedsWords
  readonly found: FoundWords
  readonly done: DoneWords
  readonly trouble: TroubleWords
  readonly decided: DecidedWords
  readonly stands: StandsWords
  readonly hours: HoursWords
  readonly know: KnowWords
  readonly next: NextWords
  readonly ready: ReadyWords
  readonly causes: CauseWords
  readonly captions: CaptionWords
  readonly drawing: DrawingWords
  readonly paper: PaperWords
  readonly mail: MailWords
}

/** Figures, days, lists and quotes: clauses, no sentences. */
export interface FigureWords {
  /** '12.5 h', one decimal */
  readonly hours: (value: number) => string
  /** A figure without its unit, with as many decimals as are said. */
  readonly number: (value: number, decimals: 0 | 1 | 2) => string
  /** '4.1 mm' */
  readonly mm: (value: number, decimals: 0 | 1 | 2) => string
  /** A local date, YYYY-MM-DD: 'Tue 24 Nov', with the year when it is not the given one. */
  readonly day: (date: string, year: number) => string
  /** Hours that are more, or less where negative: '6.5 h more' */
  readonly moreOrLess: (hours: number) => string
  /** 'a, b and c' of parts that may hold commas themselves. */
  readonly list: (parts: readonly string[]) => string
  /** Ends a list that is cut: 'and three more' */
  readonly andMore: (count: number) => string
  readonly quoted: (text: string) => string
  /** Typed text in the middle of a sentence. */
  readonly inside: (text: string) => string
}

export interface LetterWords {
  readonly title: (car: string, shell: string) => string
  /** @param monday local date of the week's first day, `sunday` of its last */
  readonly subtitle: (week: number, monday: string, sunday: string) => string
  readonly greeting: (owner: string) => string
  /** In place of a name that was erased for good. */
  readonly erased: string
  /** This report takes the place of an earlier one on the same week. */
  readonly corrects: (number: number) => string
  readonly morePhotos: string
  readonly informs: string
  readonly loadBearing: string
}

export interface OpeningWords {
  /** @param repairs that are listed; null says nothing of them */
  readonly first: (visit: {
    readonly isWarranty: boolean
    readonly day: string
    readonly repairs: number | null
  }) => string
  /** A sentence of clauses that the next messages give. */
  readonly did: (clauses: readonly string[]) => string
  readonly steps: (steps: number, repairs: number) => string
  readonly tasks: (count: number) => string
  readonly triedFit: string
  readonly sentAway: string
  readonly sentAwayAndBack: string
  readonly hadBack: string
  readonly tookBack: (steps: number) => string
  readonly found: (things: number) => string
  readonly worked: (hours: string) => string
  readonly redone: string
  readonly redoneWhy: string
  readonly wentOn: string
  /** From a reason that begins small, with its full stop. */
  readonly quiet: (reason: string) => string
  readonly notAgreed: string
  readonly notBegun: string
  /** @param reason a sentence, or '' */
  readonly paused: (day: string, reason: string) => string
  readonly readyToHandOver: string
  readonly isFinished: string
  readonly away: (what: string, back: Back) => string
  readonly nothingOpen: string
  readonly waitsItsTurn: string
  readonly waits: string
  readonly finished: (day: string) => string
  readonly delivered: (day: string) => string
  readonly decisions: (count: number) => string
}

/** When a shell that is away is expected back. */
export interface Back {
  readonly day: string
  /** That day has gone by. */
  readonly isOver: boolean
}

export interface NeedsWords {
  readonly heading: string
  readonly asked: (day: string) => string
  /** @param doubt the least and the most hours it may become; null where nothing is in doubt */
  readonly takes: (
    hours: number,
    names: readonly string[],
    doubt: { readonly low: number; readonly high: number } | null,
  ) => string
  readonly ifNot: (text: string) => string
  readonly doYouAgree: string
  readonly mayWe: string
  /** No sentence. */
  readonly estimate: string
  readonly estimateWaits: (hours: string, names: readonly string[]) => string
  readonly whichMayWe: string
}

export interface FoundWords {
  readonly heading: string
  readonly layerGrade: (layer: string, grade: Grade) => string
  readonly layerNotSeen: (layer: string, judgedBy: string | null) => string
  readonly thinnest: (left: string, of: string) => string
  readonly layerPlan: (layer: string, decision: Decision) => string
  readonly layerDone: (layer: string, decision: Decision) => string
  readonly finding: (finding: {
    readonly day: string
    readonly kind: FindingKind
    readonly layer: string | null
    /** As bad as one that was told before it. */
    readonly isAlike: boolean
    readonly extent: string
  }) => string
  readonly metalThere: (grade: Grade) => string
  readonly needs: (text: string) => string
  readonly beyondAgreed: Readonly<Record<Payer, string>>
  readonly isAgreed: string
  readonly isOurs: string
  readonly cameOff: (name: string, reason: string) => string
  readonly split: (name: string | null, second: string, reason: string) => string
  readonly cameOn: (names: readonly string[]) => string
}

/** What a gate's words depend on besides the gate. */
export interface PassedGate {
  readonly gate: Gate
  readonly drainsAsked: boolean
  readonly hasManyLayers: boolean
  /** The most that any layer asked for. */
  readonly metal: 'new' | 'treated' | 'kept'
  readonly coat: 'protective' | 'outer' | 'temporary' | null
}

export interface DoneWords {
  readonly heading: string
  readonly onDay: (day: string, passed: readonly PassedGate[]) => string
  readonly people: (names: readonly string[]) => string
  readonly closedAsFound: string
  readonly isFinished: string
  readonly isClosed: string
  /** @param gate that is not done yet */
  readonly workedOn: (gate: Gate | null) => string
  readonly notNeeded: (gate: Gate, reason: string) => string
  readonly tasksDone: (tasks: readonly TaskTold[]) => string
  readonly tasksGoing: (tasks: readonly TaskTold[]) => string
  readonly wentTo: (firm: string, day: string, what: string) => string
  readonly backExpected: (day: string) => string
  readonly cameBack: (firm: string, day: string) => string
}

export interface TaskTold {
  readonly name: string
  /** Nobody where technicians are not named. */
  readonly by: readonly string[]
  /** Null while it goes on. */
  readonly day: string | null
}

export interface TroubleWords {
  readonly heading: string
  readonly rework: (hours: string, causes: readonly (readonly [ReworkCause, string])[]) => string
  readonly gateTakenBack: (back: {
    readonly name: string
    readonly day: string
    readonly gate: Gate
    readonly cause: ReworkCause
    readonly reason: string
    readonly isDoneAgain: boolean
  }) => string
  readonly taskTakenBack: (back: {
    readonly name: string
    readonly day: string
    readonly cause: ReworkCause
    readonly reason: string
  }) => string
  readonly treatmentUndid: (repairs: number, reason: string) => string
  readonly badFit: (fit: {
    readonly name: string
    readonly times: number
    /** The last time. */
    readonly day: string
    readonly note: string
    /** When it was good at last; null where it was not. */
    readonly goodOn: string | null
  }) => string
  readonly badPart: (name: string | null, reason: string) => string
}

export interface DecidedWords {
  readonly heading: string
  readonly accepted: (payer: Payer, hours: string, day: string) => string
  readonly answered: (answer: {
    readonly payer: Payer
    readonly isAccepted: boolean
    readonly isChanged: boolean
    readonly title: string
    readonly day: string
    readonly hours: string
  }) => string
  readonly atOurCost: (title: string, reason: string) => string
  readonly leftOut: (title: string, reason: string) => string
}

export interface StandsWords {
  readonly heading: string
  readonly closedAsFound: string
  readonly isFinished: string
  readonly steps: (done: number, of: number) => string
  readonly next: (gate: Gate) => string
  /** Heads of lists of names. */
  readonly groups: Readonly<Record<'finished' | 'closed as found' | 'in work' | 'not begun', string>>
}

export interface HoursWords {
  readonly heading: string
  /** Heads of the columns, no sentences. */
  readonly thisWeek: string
  readonly toDate: string
  readonly agreed: string
  readonly allWork: string
  readonly waiting: (hours: string) => string
  readonly capped: (hours: string) => string
  readonly alsoPaid: (payers: readonly ('insurer' | 'workshop')[]) => string
  /** @param low and `high`: figures not exceeded in half and in four of five cases, without unit */
  readonly whole: (low: string, high: string) => string
  readonly countsWaiting: string
  /** Where the hours stand beside what is agreed, and what was asked for where anything was. */
  readonly within: (isAsked: boolean) => string
  readonly mayExceed: (isAsked: boolean) => string
  readonly exceeds: (figure: string, isAsked: boolean) => string
  readonly withinCap: string
  readonly mayExceedCap: (cap: string) => string
  readonly exceedsCap: (figure: string, cap: string) => string
}

export interface KnowWords {
  readonly heading: string
  readonly stopped: (title: string, reason: string) => string
  readonly closedOver: (over: string, under: string) => string
  readonly bothOpen: (one: string, other: string) => string
  readonly wasClosedAsFound: (name: string, day: string) => string
  readonly closedAsFound: (closed: {
    readonly name: string
    readonly day: string
    readonly payer: Payer
    readonly answer: string
    readonly protection: string
    readonly isLoadBearing: boolean
  }) => string
  readonly setAside: (check: {
    readonly name: string
    readonly day: string
    readonly code: HoldCode
    readonly gate: Gate
    readonly reason: string
  }) => string
}

/** Reasons begin small and have their full stop: they follow a name and a colon. */
export interface NextWords {
  readonly heading: string
  readonly canGoOn: string
  readonly thisWaits: string
  readonly allWork: string
  readonly aim: (name: string, gate: Gate) => string
  readonly waits: (name: string, reason: string) => string
  readonly notEstimated: string
  readonly ourDecision: string
  /** @param title null for the estimate */
  readonly answer: (payer: 'owner' | 'insurer', title: string | null) => string
  readonly declined: string
  readonly support: string
  readonly away: (back: Back | null) => string
  readonly window: string
  readonly review: string
  readonly part: (part: WaitedPart | null) => string
  readonly task: (name: string) => string
  readonly curing: (day: string) => string
  readonly skill: string
  /** Any other hold. */
  readonly held: (hold: HeldBy) => string
}

export interface WaitedPart {
  readonly name: string
  readonly state: 'needed' | 'ordered' | 'received' | 'rejected' | 'checked' | 'fitted'
  readonly expected: Back | null
}

export interface HeldBy {
  readonly code: HoldCode
  /** As the screens say it, in English. */
  readonly words: string
  /** The name of the repair that is in the way. */
  readonly other: string | null
  /** What the manager wrote, and the day that they expect; null where it is no hold of theirs. */
  readonly byHand: { readonly words: string; readonly day: string | null } | null
}

export interface ReadyWords {
  readonly heading: string
  readonly whilePaused: string
  readonly by: (late: string) => string
  readonly between: (early: string, late: string) => string
  readonly countsOnAnswers: string
  readonly countsOnAnswer: (title: string, day: string | null) => string
  readonly noDateBefore: string
  readonly unchanged: string
  /** @param days not 0; negative where it is sooner */
  readonly moved: (was: string, days: number) => string
  readonly noSingleCause: string
  readonly causes: (clauses: readonly string[]) => string
  readonly noDate: (faults: readonly PlanFault['code'][]) => string
  readonly expectedBefore: (was: string) => string
  readonly promised: (day: string) => string
  readonly promisedAsBefore: (day: string) => string
  readonly promisedBeforePause: (day: string) => string
  readonly promiseSet: (day: string) => string
  readonly promiseWithdrawn: (was: string) => string
  readonly promiseMoved: (was: string, now: string) => string
  readonly promisePassed: string
  readonly willKeep: string
  readonly mayKeep: string
  readonly willNotKeep: string
}

/** Why a finish moved: clauses that begin small and have no full stop. */
export interface CauseWords {
  readonly listed: (repairs: number) => string
  readonly unlisted: (repairs: number) => string
  readonly redone: string
  readonly wentAway: (what: string) => string
  readonly treatmentUndid: string
  readonly held: string
  readonly elsewhere: Readonly<Record<ElsewhereChange, string>>
  readonly damage: string
  readonly lookedAgain: string
  readonly paused: string
  readonly takenUp: string
  readonly agreed: (title: string, hours: string) => string
  readonly atOurCost: (title: string) => string
  readonly leftOut: (title: string) => string
  readonly stopped: (title: string) => string
  readonly raised: (title: string) => string
  readonly badPart: (name: string | null) => string
  readonly partMoved: (name: string | null, way: 'later' | 'sooner') => string
  readonly known: (repairs: number) => string
}

/** What a photo without words of its own shows; follows the repair's name. */
export interface CaptionWords {
  readonly shown: (
    shows: 'before' | 'after' | 'layer' | 'work' | 'prepared' | 'as left',
    gate: Gate,
  ) => string
}

/** Words in and below drawings: no sentences. */
export interface DrawingWords {
  readonly marks: Readonly<Record<MarkKind, string>>
  readonly marked: (gates: readonly Gate[], mark: MarkKind) => string
  readonly outside: string
  readonly inside: string
  readonly off: string
  readonly closedOver: string
  readonly primed: string
  readonly notSeen: string
  readonly notSeenYet: string
  readonly judgedBy: (text: string) => string
  readonly is: Readonly<Record<Grade, string>>
  readonly was: Readonly<Record<Grade, string>>
  readonly left: (length: string) => string
  readonly decided: Readonly<Record<Decision, string>>
  readonly done: Readonly<Record<Decision, string>>
  /** A sentence. */
  readonly cut: (layers: readonly string[]) => string
  /** A sentence. */
  readonly seamsSealed: string
  readonly legend: {
    readonly hatching: string
    readonly hatchingNew: string
    readonly dashed: (what: readonly ('off' | 'not seen' | 'gone')[]) => string
    readonly rust: string
    readonly sealer: string
    readonly primer: string
    readonly outerCoat: string
    readonly loadBearing: string
    readonly enlarged: string
  }
}

/** Fixed words of the PDF and of the page. */
export interface PaperWords {
  readonly report: (number: number, written: string) => string
  readonly subject: (week: string, number: number) => string
  /** No sentences. */
  readonly notIssued: string
  readonly draft: string
  readonly draftSentence: string
  /** @param head the SHA-256 in groups */
  readonly recordHead: (head: string) => string
  readonly record: (start: string) => string
  readonly page: (number: number, of: number) => string
  readonly before: string
  readonly after: string
  readonly photo: (taken: string, caption: string) => string
  /** What is drawn on a photo, for those who do not see it; at least one mark. */
  readonly marked: (counts: MarkCounts) => string
  readonly unreadable: string
  readonly lost: string
  readonly gates: (words: string) => string
  readonly table: (heads: string) => string
  /** What the drawings of all repairs show, from a legend. */
  readonly legend: (words: string) => string
}

export interface MailWords {
  readonly subject: (title: string, workshop: string) => string
  readonly paragraphs: (owner: string, title: string) => readonly string[]
}
