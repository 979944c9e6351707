import type { Database } from '../../db/database.ts'
import type { DemoProgress } from '../../db/demo/fill-demo.ts'
import type { PhotoResult } from '../../db/photos/photo-problem.ts'
import type { PhotoStore } from '../../db/photos/photo-store.ts'
import type { ReportFileKind } from '../../db/report-files.ts'
import type { Moment } from '../../domain/car.ts'
import type { PlanSheet } from '../../domain/plan/plan-sheet.ts'
import type { PlanOf, PlanTelling } from '../../domain/plan/plan-words.ts'
import type { Plan } from '../../domain/plan/plan.ts'
import type { LongTable } from '../../domain/report/table.ts'
import type { EstimateLetter } from '../../domain/report/estimate-letter.ts'
import type { BuiltFrom } from '../../domain/program-version.ts'
import type { OwnerWeek } from '../../domain/report/owner-week-shapes.ts'
import type { VariationLetter } from '../../domain/report/variation-letter.ts'
import type { BringInDesk } from './bring-in-desk.ts'
import type { CarFileDesk } from './car-file-desk.ts'
import type { CheckDesk } from './check-desk.ts'
import type { CopiesDesk } from './copies-desk.ts'
import type { EntrySecret } from './entry-secret.ts'
import type { NetworkDesk } from './network-desk.ts'
import type { Planner } from './planner.ts'
import type { ReadScreen } from './screens.ts'
import type { UpdateDesk } from './update-desk.ts'
import type { WholeDesk } from './whole-desk.ts'

/** An e-mail to an owner before it is sent. Line breaks in names stay out of its head. */
export interface MailLetter {
  /** Null leaves the sender to the mail program. */
  readonly from: MailAddress | null
  readonly to: MailAddress
  readonly subject: string
  /** Paragraphs of plain words. */
  readonly paragraphs: readonly string[]
  /** Epoch milliseconds. */
  readonly date: Moment
  /** Name of the attached PDF, without its ending. */
  readonly pdfName: string
  readonly pdf: Uint8Array
}

export interface MailAddress {
  readonly name: string
  readonly address: string
}

/** What the handler works with: everything that touches the machine comes from the host. */
export interface ApiDeps {
  readonly db: Database
  readonly photos: PhotoStore
  /** Makes the sizes of a stored photo, in a worker. */
  readonly makeSizes: (sha256: string) => Promise<PhotoResult<true>>
  /** Where the files of issued reports are kept. */
  readonly reportsFolder: string
  /** Keeps a file there and answers its SHA-256. @throws the operating system's error when the disk is full or cannot be written */
  readonly storeReport: (kind: ReportFileKind, bytes: Uint8Array) => Promise<string>
  /** Lays a report out as a PDF document. */
  readonly printReport: (week: OwnerWeek, as: PrintedAs) => Promise<Uint8Array>
  readonly planner: Planner
  readonly bringIn: BringInDesk
  readonly carFiles: CarFileDesk
  readonly whole: WholeDesk
  readonly check: CheckDesk
  readonly copies: CopiesDesk
  readonly network: NetworkDesk
  readonly updates: UpdateDesk
  /** The plan of one person or bay, laid out as a PDF document. */
  readonly printPlan: (sheet: PlanSheet) => Promise<Uint8Array>
  /** The same as iCalendar; null when nothing is planned. */
  readonly planCalendar: (plan: Plan, of: PlanOf, telling: PlanTelling, name: string) => string | null
  /** Tables as files that other programs open. */
  readonly tables: {
    /** In pieces, each worked out when it is asked for. */
    readonly toCsv: (table: LongTable) => Iterable<string>
    /** Made in a worker. */
    readonly toXlsx: (tables: readonly LongTable[]) => Promise<Uint8Array<ArrayBuffer>>
  }
  /** An owner's week as files that leave the workshop besides its PDF. */
  readonly reportExports: {
    /** As one HTML file with its photos in it, UTF-8. */
    readonly toHtml: (week: OwnerWeek, as: PrintedAs) => Promise<Uint8Array<ArrayBuffer>>
    /** An issued report's PDF in an e-mail that is not sent yet. */
    readonly toMail: (letter: MailLetter) => Promise<Uint8Array<ArrayBuffer>>
  }
  /** A variation as a letter to its payer, laid out as a PDF document. */
  readonly printVariation: (letter: VariationLetter) => Promise<Uint8Array>
  /** An estimate as a letter to the owner, laid out as a PDF document. */
  readonly printEstimate: (letter: EstimateLetter) => Promise<Uint8Array>
  /** Fills the empty workshop with the demo. @throws DatabaseProblem when the disk fails */
  readonly fillDemo: (onProgress: (progress: DemoProgress) => void) => Promise<void>
  /** The host's clock, epoch milliseconds. */
  readonly now: () => Moment
  /** Addresses that other devices open, as in 'https://192.168.1.20:47832/', the likeliest first; none while only this computer is served. */
  readonly reachedAt: () => readonly string[]
  /** Lets the host's own screens in. */
  readonly entry: EntrySecret
  /** Differs between data folders: cookies do not tell the ports of one computer apart. */
  readonly cookieName: string
  readonly readScreen: ReadScreen
  /** What the program itself was made from. */
  readonly program: BuiltFrom
  /** Aborted when the host closes: ends live connections. */
  readonly closing: AbortSignal
  /** Takes what the host is to do by itself: once when it runs, then about twice a minute. Errors are logged. */
  readonly onTick: (work: () => Promise<void>) => void
  /** Told of defects, without personal data. */
  readonly log: (line: string) => void
}

/** An issued report prints the head of its car's chain, so that a cut or rewritten chain is seen. */
export type PrintedAs = { readonly kind: 'draft' } | { readonly kind: 'issued'; readonly head: string }
