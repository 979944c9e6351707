import { createHash } from 'node:crypto'
import { resolve } from 'node:path'
import { networkInterfaces } from 'node:os'
import { fileURLToPath } from 'node:url'
import { logsFolder, photosFolder, reportsFolder } from '../db/data-paths.ts'
import { tryToStore } from '../db/database-problem.ts'
import type { Database } from '../db/database.ts'
import { linkHeads } from '../db/link-heads.ts'
import { openDatabase } from '../db/open-database.ts'
import { storeReport } from '../db/report-files.ts'
import { readSetting } from '../db/settings.ts'
import { createApi, type Handler } from './api/app.ts'
import { createEntrySecret } from './api/entry-secret.ts'
import type { ReadScreen } from './api/screens.ts'
import type { RunningHost } from './boot.ts'
import { openCarFileDesk } from './bag/car-file-desk.ts'
import { readBuiltFrom } from './built-from.ts'
import { openBringInDesk } from './bring-in/bring-in-desk.ts'
import { openCheckDesk } from './check/check-desk.ts'
import { openCopiesDesk } from './copies/copies-desk.ts'
import { createHostClock } from './host-clock.ts'
import { createDemoFiller, demoZone, keepDemoAtWork, requireDemo } from './host-demo.ts'
import { openHostPhotos } from './host-photos.ts'
import { listen } from './listen.ts'
import { openLog } from './log-file.ts'
import { reportMail } from './export/report-mail.ts'
import { tableToCsv } from './export/table-to-csv.ts'
import { createWorkbookMaker } from './export/workbook-maker.ts'
import { openNetworkDesk, reachedAt } from './network/network-desk.ts'
import { type Interfaces, privateAddresses } from './network/private-addresses.ts'
import { planCalendar } from './plan/plan-calendar.ts'
import { createPlanner } from './plan/planner-service.ts'
import { createPrinter } from './print/printer.ts'
import { readScreenFiles } from './screen-files.ts'
import type { StartOptions } from './start-options.ts'
import { createTicks } from './ticks.ts'
import { wordsUnderWay } from './under-way.ts'
import { openUpdateDesk } from './updates/update-desk.ts'
import { openWholeDesk } from './whole/whole-desk.ts'
import { createImagePool } from './workers/image-pool.ts'
import { refusalWords } from '../domain/refusal.ts'

export interface HostOptions extends StartOptions {
  /** Told what went wrong inside, which is kept in the data folder as well; standard error unless a test listens. */
  readonly log?: (line: string) => void
  /** Epoch milliseconds; this computer's clock unless a test brings its own. */
  readonly clock?: () => number
  /** How often the host looks whether anything is due, milliseconds. */
  readonly tickMs?: number
  /** The networks that this computer is in; as the system tells unless a test brings its own. */
  readonly interfaces?: () => Interfaces
  /** Where an address of theirs is listened at: there, unless a test runs on a computer without it. */
  readonly bindAt?: (address: string) => string
  /** The screens; as they were built unless a test brings others. */
  readonly readScreen?: ReadScreen
}

/** What `npm start` has built. */
export const readBuiltScreens = (): ReadScreen =>
  readScreenFiles(fileURLToPath(new URL('../dist/renderer/', import.meta.url)))

/**
 * Starts the host of one data folder: opens its database and photos, listens on this computer and answers its screens.
 *
 * @throws Error whose message says what to do: the folder is in use, damaged or not writable, or the port is taken
 */
export async function startHost(options: HostOptions): Promise<RunningHost> {
  const opened = new AsyncDisposableStack()
  const close = () => opened.disposeAsync()
  try {
    return { ...(await open(options, (end) => opened.defer(end))), close }
  } catch (error) {
    const { log = console.error } = options
    await close().catch((closing: unknown) => log(`The host did not close cleanly: ${String(closing)}`))
    throw error
  }
}

type End = () => void | Promise<void>

/** Opens everything in turn; what was opened last is closed first, and one that fails to close keeps no other open. */
async function open(options: HostOptions, atEnd: (end: End) => void): Promise<Omit<RunningHost, 'close'>> {
  const { dataDir, log: print = console.error } = options
  const folder = photosFolder(dataDir)
  const db = openDatabase(dataDir)
  atEnd(() => db.close())
  const log = openLog({ folder: logsFolder(dataDir), clock: Date.now, print })
  const clock = createHostClock(options, demoZone)
  if (readSetting(db, 'demo') !== null) keepDemoAtWork(db, clock)
  const { now } = clock
  const planner = createPlanner({ db, now, log })
  const images = createImagePool({ folder, onWorkerEnd: log, onBusy: planner.hold })
  atEnd(() => images.close())
  const photos = await openHostPhotos(db, folder, images.inspect)
  const printer = createPrinter({ photosFolder: folder })
  atEnd(() => printer.close())
  const workbooks = createWorkbookMaker()
  atEnd(() => workbooks.close())

  const { makeSizes } = images
  const bringIn = await openBringInDesk({ db, photos, makeSizes, now, log })
  atEnd(() => bringIn.close())
  const whole = openWholeDesk({ db, now, log })
  atEnd(() => whole.close())
  const check = openCheckDesk({ db, makeSizes, now, log })
  atEnd(() => check.close())
  const copies = openCopiesDesk({ db, now, log })
  atEnd(() => copies.close())
  const carFiles = await openCarFileDesk({ db, writeBook: printer.writeBook, now, log })
  atEnd(() => carFiles.close())
  const updates = openUpdateDesk({ db, now })
  atEnd(() => updates.close())

  atEnd(() => tieHeads(db, now(), log))
  const fillDemo = createDemoFiller(db, photos, clock)
  if (options.demo) await requireDemo(db, fillDemo, log)

  const ticks = createTicks({ log, everyMs: options.tickMs })
  atEnd(() => ticks.stop())
  const entry = createEntrySecret(options.window ? 'once' : 'this run')
  const closing = new AbortController()
  const { interfaces = networkInterfaces, bindAt } = options
  const network = openNetworkDesk({
    db,
    dataDir,
    handler: (...asked) => api(...asked),
    addresses: () => privateAddresses(interfaces()),
    bindAt,
    // Tablets go by the time of their own clock, also where the workshop's is another one.
    clock: Date.now,
  })
  const api: Handler = createApi({
    db,
    photos,
    makeSizes,
    reportsFolder: reportsFolder(dataDir),
    storeReport: (kind, bytes) => storeReport(reportsFolder(dataDir), kind, bytes),
    printReport: printer.print,
    planner,
    bringIn,
    whole,
    check,
    copies,
    network,
    updates,
    carFiles,
    printPlan: printer.printPlan,
    printVariation: printer.printVariation,
    printEstimate: printer.printEstimate,
    planCalendar,
    tables: { toCsv: tableToCsv, toXlsx: workbooks.toXlsx },
    reportExports: { toHtml: printer.writePage, toMail: reportMail },
    fillDemo,
    now,
    reachedAt: () => reachedAt(network.state()),
    entry,
    cookieName: cookieNameOf(dataDir),
    readScreen: options.readScreen ?? readBuiltScreens(),
    program: readBuiltFrom(),
    closing: closing.signal,
    onTick: ticks.add,
    log,
  })
  const listening = await listen(api, options.port)
  atEnd(() => listening.close())
  atEnd(() => network.shut())
  atEnd(() => closing.abort())
  planner.start()
  atEnd(() => planner.close())
  ticks.start()
  const url = `http://${listening.authority}/`
  return {
    url,
    windowUrl: `${url}?enter=${entry.text}`,
    underWay: () => wordsUnderWay({ copies, check, whole, carFiles }),
  }
}

/** Ties the cars' chains into the workshop's, so that what was added cannot be cut off unseen. */
function tieHeads(db: Database, now: number, log: (line: string) => void): void {
  const tied = tryToStore(() => linkHeads(db, now))
  // On a full disk the program must still end well; the next end ties them.
  if (!tied.ok) log(`The chains could not be tied together: ${refusalWords(tied.refusal)}`)
}

/** The same for the same folder, whatever port it is served on. */
function cookieNameOf(dataDir: string): string {
  return `panelwright-${createHash('sha256').update(resolve(dataDir)).digest('hex').slice(0, 8)}`
}
