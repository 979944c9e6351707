import { createTRPCClient, httpLink, TRPCClientError } from '@trpc/client'
import { createApi, type Peer } from '../../electron/api/app.ts'
import type { Door } from '../../electron/api/door.ts'
import { createEntrySecret } from '../../electron/api/entry-secret.ts'
import type { ActAnswer } from '../../electron/api/act-procedures.ts'
import type { AppRouter } from '../../electron/api/router.ts'
import type { ReadScreen } from '../../electron/api/screens.ts'
import {
  createPlanner,
  type PlannerOptions,
  type PlannerService,
} from '../../electron/plan/planner-service.ts'
import { openCheckDesk } from '../../electron/check/check-desk.ts'
import { openBringInDesk } from '../../electron/bring-in/bring-in-desk.ts'
import { reportMail } from '../../electron/export/report-mail.ts'
import { tableToCsv } from '../../electron/export/table-to-csv.ts'
import { createWorkbookMaker, type WorkbookMakerOptions } from '../../electron/export/workbook-maker.ts'
import { planCalendar } from '../../electron/plan/plan-calendar.ts'
import { openCopiesDesk } from '../../electron/copies/copies-desk.ts'
import { openCarFileDesk } from '../../electron/bag/car-file-desk.ts'
import { createPrinter, type Printer } from '../../electron/print/printer.ts'
import { openUpdateDesk, type UpdateDeskOptions } from '../../electron/updates/update-desk.ts'
import { openWholeDesk } from '../../electron/whole/whole-desk.ts'
import { createImagePool } from '../../electron/workers/image-pool.ts'
import { photosFolder, reportsFolder } from '../../db/data-paths.ts'
import { fillDemo } from '../../db/demo/fill-demo.ts'
import { storeReport } from '../../db/report-files.ts'
import { openPhotoStore } from '../../db/photos/photo-store.ts'
import type { CommandKind, CommandPayload } from '../../domain/commands/command-shapes.ts'
import { permissions } from '../../domain/roles.ts'
import type { PersonId } from '../../domain/ids.ts'
import type { Refusal } from '../../domain/refusal.ts'
import { createTestNetwork } from './test-network.ts'
import { codes, createWorkshop, type SendOptions, type Workshop, type WorkshopOptions } from './workshop.ts'

/** What of a command's envelope is not the usual; the code is the person's own unless it says another or none. */
export interface ScreenSendOptions extends Omit<SendOptions, 'device'> {
  readonly code?: string | null
}

export interface TestHost {
  /** The small workshop under the handler, with its database and its clock, which stands still until it is moved. */
  readonly workshop: Workshop
  readonly authority: string
  /** The handler itself, for requests that no screen would send. */
  readonly handler: (request: Request, peer?: Peer, door?: Door) => Promise<Response>
  /** Plans by itself only after `start`, so that other tests have the processor to themselves. */
  readonly planner: PlannerService
  /** Path that lets a device in, with the secret of this run. */
  readonly entryPath: string
  /** Pairs another device. */
  readonly openScreen: () => Promise<TestScreen>
  /** Does what is due by itself at the clock's time. */
  readonly tick: () => Promise<void>
  /** What the host has written to its log. */
  readonly log: readonly string[]
  readonly close: () => Promise<void>
}

/** One paired device. */
export interface TestScreen {
  readonly cookie: string
  /** As the page of this screen would ask, with its cookie and, for changes, its origin. */
  readonly request: (path: string, init?: RequestInit) => Promise<Response>
  /** The typed client of the screens: `screen.client.car.query({ carId })`. */
  readonly client: ReturnType<typeof createTRPCClient<AppRouter>>
  /** Sends a command, whatever becomes of it. */
  readonly send: <K extends CommandKind>(
    kind: K,
    payload: CommandPayload<K>,
    options?: ScreenSendOptions,
  ) => Promise<ActAnswer>
  /** Sends a command that must be accepted. */
  readonly run: <K extends CommandKind>(
    kind: K,
    payload: CommandPayload<K>,
    options?: ScreenSendOptions,
  ) => Promise<ActAnswer & { readonly ok: true }>
  readonly signIn: (personId: PersonId) => Promise<void>
  readonly upload: (bytes: Uint8Array) => Promise<Response>
}

export interface TestHostOptions extends WorkshopOptions {
  readonly readScreen?: ReadScreen
  readonly printReport?: Printer['print']
  /** What the disk says to each file of a report that is to be kept; null where it is well. */
  readonly beforeStoringReport?: () => NodeJS.ErrnoException | null
  readonly planner?: Partial<PlannerOptions>
  readonly workbooks?: WorkbookMakerOptions
  readonly updates?: Pick<UpdateDeskOptions, 'feed'>
}

const authority = '127.0.0.1:47831'
const ownDoor: Door = { origins: [`http://${authority}`], isNetwork: false }

/** The real handler over a data folder of its own with real photos and workers, without a socket. */
export async function createTestHost(options: TestHostOptions = {}): Promise<TestHost> {
  const workshop = createWorkshop({ ...options, keptIn: 'folder' })
  const folder = photosFolder(workshop.dataDir ?? '')
  const images = createImagePool({ folder })
  const printer = createPrinter({ photosFolder: folder })
  const workbooks = createWorkbookMaker(options.workbooks)
  const photos = await openPhotoStore(folder, { inspect: images.inspect })
  if (!photos.ok) throw new Error(photos.problem.message)
  const closing = new AbortController()
  const entry = createEntrySecret('this run')
  const log: string[] = []
  const works: (() => Promise<void>)[] = []
  const planner = createPlanner({
    db: workshop.db,
    now: () => workshop.now,
    log: (line) => log.push(line),
    ...options.planner,
  })
  const carFiles = await openCarFileDesk({
    db: workshop.db,
    writeBook: printer.writeBook,
    now: () => workshop.now,
    log: (line) => log.push(line),
  })
  const whole = openWholeDesk({
    db: workshop.db,
    now: () => workshop.now,
    log: (line) => log.push(line),
  })
  const check = openCheckDesk({
    db: workshop.db,
    makeSizes: images.makeSizes,
    now: () => workshop.now,
    log: (line) => log.push(line),
  })
  const copies = openCopiesDesk({
    db: workshop.db,
    now: () => workshop.now,
    log: (line) => log.push(line),
  })
  const bringIn = await openBringInDesk({
    db: workshop.db,
    photos: photos.value,
    makeSizes: images.makeSizes,
    now: () => workshop.now,
    log: (line) => log.push(line),
  })
  const updates = openUpdateDesk({ db: workshop.db, now: () => workshop.now, ...options.updates })
  const api = createApi({
    db: workshop.db,
    photos: photos.value,
    makeSizes: images.makeSizes,
    reportsFolder: reportsFolder(workshop.dataDir ?? ''),
    storeReport: async (kind, bytes) => {
      const fault = options.beforeStoringReport?.() ?? null
      if (fault !== null) throw fault
      return storeReport(reportsFolder(workshop.dataDir ?? ''), kind, bytes)
    },
    printReport: options.printReport ?? printer.print,
    planner,
    bringIn,
    whole,
    check,
    copies,
    network: createTestNetwork(),
    updates,
    carFiles,
    printPlan: printer.printPlan,
    printVariation: printer.printVariation,
    printEstimate: printer.printEstimate,
    planCalendar,
    tables: { toCsv: tableToCsv, toXlsx: workbooks.toXlsx },
    reportExports: { toHtml: printer.writePage, toMail: reportMail },
    fillDemo: (onProgress) =>
      fillDemo({
        db: workshop.db,
        photoStore: photos.value,
        today: '2026-11-25',
        seed: 'test',
        photos: 'tiny',
        onProgress,
      }),
    now: () => workshop.now,
    reachedAt: () => ['https://192.168.1.20:47832/'],
    entry,
    cookieName: 'panelwright-test',
    readScreen: options.readScreen ?? (() => null),
    program: { version: '0.0.0', commit: 'unknown', lock: 'unknown' },
    closing: closing.signal,
    onTick: (work) => works.push(work),
    log: (line) => log.push(line),
  })
  const handler: TestHost['handler'] = (request, peer = { address: '127.0.0.1' }, door = ownDoor) =>
    api(request, peer, door)
  return {
    workshop,
    authority,
    handler,
    planner,
    log,
    entryPath: `/?enter=${entry.text}`,
    tick: async () => {
      for (const work of works) await work()
    },
    openScreen: () => openScreen(handler, workshop, entry.text),
    close: async () => {
      closing.abort()
      await planner.close()
      carFiles.close()
      whole.close()
      await copies.close()
      await updates.close()
      await check.close()
      await bringIn.close()
      await printer.close()
      await workbooks.close()
      await images.close()
      workshop.close()
    },
  }
}

async function openScreen(
  handler: TestHost['handler'],
  workshop: Workshop,
  secret: string,
): Promise<TestScreen> {
  const entered = await handler(new Request(`http://${authority}/?enter=${secret}`))
  const cookie = entered.headers.get('set-cookie')?.split(';')[0]
  if (cookie === undefined) throw new Error(`The host let no screen in (answer ${entered.status}).`)
  return screenWith(handler, workshop, cookie)
}

/** The screen of a device that has this cookie. */
export function screenWith(handler: TestHost['handler'], workshop: Workshop, cookie: string): TestScreen {
  const request: TestScreen['request'] = (path, init = {}) => {
    const headers = new Headers(init.headers)
    headers.set('cookie', cookie)
    if (init.method !== undefined && init.method !== 'GET') headers.set('origin', `http://${authority}`)
    return handler(new Request(`http://${authority}${path}`, { ...init, headers }))
  }
  const client = createTRPCClient<AppRouter>({
    links: [
      httpLink({
        url: `http://${authority}/trpc`,
        fetch: (url, init) => request(pathOf(url), init as RequestInit),
      }),
    ],
  })
  const send: TestScreen['send'] = (kind, payload, options = {}) => {
    const command = workshop.command(kind, payload, options)
    const usual = permissions[kind].proof === 'code' && command.by !== null ? codes[command.by] : null
    return client.command.mutate({
      ...command,
      code: options.code === undefined ? (usual ?? null) : options.code,
    })
  }
  return {
    cookie,
    request,
    client,
    send,
    run: async (kind, payload, options) => {
      const answer = await send(kind, payload, options)
      if (answer.ok) return answer
      const { code, message, next } = answer.refusal
      throw new Error(`${kind} was refused (${code}): ${message} ${next}`)
    },
    signIn: async (personId) => {
      const answer = await client.signIn.mutate({ personId, code: codes[personId] ?? '' })
      if (!answer.ok) throw new Error(answer.refusal.message)
    },
    upload: (bytes) => request('/photos', { method: 'PUT', body: new Uint8Array(bytes) }),
  }
}

function pathOf(url: RequestInfo | URL): string {
  if (typeof url !== 'string') throw new Error('The client asks by plain addresses.')
  return url.slice(`http://${authority}`.length)
}

/** The refusal that a query was answered with; fails when it was answered with anything else. */
export async function refusalOf(asked: Promise<unknown>): Promise<Refusal> {
  const error = await asked.then(
    () => null,
    (reason: unknown) => reason,
  )
  if (error instanceof TRPCClientError && error.data?.refusal) return error.data.refusal as Refusal
  throw new Error(`There was no refusal but ${String(error)}.`)
}
