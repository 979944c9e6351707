import { fetchRequestHandler } from '@trpc/server/adapters/fetch'
import { TRPC_ERROR_CODES_BY_KEY } from '@trpc/server/rpc'
import { Hono, type Context, type MiddlewareHandler } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { refuse, type Refusal } from '../../domain/refusal.ts'
import type { ApiServices } from './api-services.ts'
import { receiveCar } from './bring-in-procedures.ts'
import { serveCarFile } from './car-files.ts'
import type { ApiDeps } from './deps.ts'
import { diskRefusal } from './disk-refusal.ts'
import { createDeviceEnds, endsWithDevice } from './device-ends.ts'
import type { Door } from './door.ts'
import { serveEstimate } from './estimate-files.ts'
import { serveTakeOut } from './export-files.ts'
import { guardOrigin, refused, secureHeaders } from './guard.ts'
import { apiContext } from './manager-here.ts'
import { createPairing, type Asker, type Pairing } from './pairing.ts'
import { createPairingCodes } from './pairing-code.ts'
import { serveCertificate } from './network-procedures.ts'
import { createPhotoRoutes } from './photos.ts'
import { servePlan } from './plan-files.ts'
import { defect } from './refused-error.ts'
import { createReportDesk } from './report-desk.ts'
import { serveDraftPage, serveMail } from './report-exports.ts'
import { servePage, servePreview, serveReport } from './reports.ts'
import { createRevisions } from './revisions.ts'
import { createRouter } from './router.ts'
import { serveScreen } from './screens.ts'
import { createSessions } from './sessions.ts'
import { serveVarianceBook, serveVarianceEntries, serveVarianceTable } from './variance-files.ts'
import { createWeeklyReports } from './weekly-reports.ts'
import { serveVariation } from './variation-files.ts'
import { receiveWhole, serveWhole } from './whole-procedures.ts'

export type Handler = (request: Request, peer: Peer, door: Door) => Promise<Response>

/** The other end of the connection that a request came by. */
export interface Peer {
  /** IP address, as the socket tells it. */
  readonly address: string
  /** Told when a paired device asks. */
  readonly isPaired?: () => void
}

/** Far above the largest command and the largest file of hours; photos come another way. */
const MOST_CALL_BYTES = 16 * 1024 * 1024
const MOST_CALLS_AT_ONCE = 20
/** A code and a name, however they are encoded. */
const MOST_FORM_BYTES = 4 * 1024
const CALLS = '/trpc'

/** The one handler of everything that screens ask for. It needs no socket, only requests. */
export function createApi(deps: ApiDeps): Handler {
  const services: ApiServices = {
    deps,
    sessions: createSessions(deps.db, deps.now),
    revisions: createRevisions(deps.db, deps.closing, deps.planner),
    deviceEnds: createDeviceEnds(),
  }
  const codes = createPairingCodes(deps.now)
  const pairing = createPairing(deps, codes)
  const desk = createReportDesk(services)
  const router = createRouter(services, desk, codes)
  deps.onTick(createWeeklyReports(deps, desk))
  deps.onTick(deps.network.look)
  deps.onTick(deps.copies.look)
  deps.onTick(deps.updates.look)
  deps.copies.onCopied(() => services.revisions.announce(true))
  const photos = createPhotoRoutes(deps)
  const app = new Hono<Asked>()

  app.onError((error, c) => {
    if (isBrokenOff(error)) return c.body(null, 400)
    deps.log(`${c.req.method} ${c.req.path}: ${defectWords(error)}`)
    const ofDisk = diskRefusal(error)
    return ofDisk === null ? refused(c, 500, defect) : refused(c, 507, ofDisk)
  })
  app.use(headAlone)
  app.use(secureHeaders)
  app.use(guardOrigin)

  app.get('/', async (c, next) => {
    const secret = c.req.query('enter')
    return secret === undefined ? next() : pairing.enter(c, secret)
  })

  app.get('/workshop-certificate.crt', (c) => serveCertificate(c, deps) ?? refused(c, 404, noSuchAddress))

  app.get('/pair', async (c) =>
    pairing.askerOf(c) === null ? pairing.showForm(c, 200) : c.redirect('/', 303),
  )
  app.post('/pair', bodyLimit({ maxSize: MOST_FORM_BYTES, onError: (c) => refused(c, 413, tooMuch) }), (c) =>
    pairing.takeForm(c, c.env.peer.address),
  )

  app.use(
    `${CALLS}/*`,
    letIn(pairing, (c) => unpairedCall(c, notLetIn(pairing, c))),
  )
  app.use(`${CALLS}/*`, bodyLimit({ maxSize: MOST_CALL_BYTES, onError: (c) => refused(c, 413, tooMuch) }))
  app.all(`${CALLS}/*`, (c) =>
    fetchRequestHandler({
      endpoint: CALLS,
      req: c.req.raw,
      router,
      maxBatchSize: MOST_CALLS_AT_ONCE,
      createContext: () => apiContext(services, c.get('asker')),
      onError: ({ error, path }) => {
        if (error.code === 'INTERNAL_SERVER_ERROR') deps.log(`${path}: ${defectWords(error.cause ?? error)}`)
      },
    }),
  )

  const paired = letIn(
    pairing,
    (c) => refused(c, 401, notLetIn(pairing, c)),
    (answer, { device }) => endsWithDevice(answer, services.deviceEnds.signalOf(device.id)),
  )
  app.put('/photos', paired, (c) => photos.put(c))
  app.put('/came-files', paired, (c) => receiveCar(c, services, c.get('asker')))
  app.get('/photos/:sha256/:size', paired, (c) => photos.get(c, c.req.param('sha256'), c.req.param('size')))
  app.get('/reports/:file{[^/]+\\.pdf}', paired, (c) =>
    serveReport(c, withoutEnding(c.req.param('file')), deps),
  )
  app.get('/reports/:file{[^/]+\\.html}', paired, (c) =>
    servePage(c, withoutEnding(c.req.param('file')), deps),
  )
  app.get('/report-preview/:visitId/:file{[^/]+\\.pdf}', paired, (c) =>
    servePreview(c, c.req.param('visitId'), withoutEnding(c.req.param('file')), desk),
  )

  for (const as of ['html', 'json'] as const)
    app.get(`/report-preview/:visitId/:file{[^/]+\\.${as}}`, paired, (c) => {
      const asked = { visit: c.req.param('visitId'), week: withoutEnding(c.req.param('file')), as }
      return serveDraftPage(c, asked, services, desk, c.get('asker'))
    })
  app.get('/reports/:file{[^/]+\\.eml}', paired, (c) =>
    serveMail(c, withoutEnding(c.req.param('file')), services, c.get('asker')),
  )

  app.get('/variance/all.xlsx', paired, (c) => serveVarianceBook(c, services, c.get('asker')))
  app.get('/variance/entries.csv', paired, (c) => serveVarianceEntries(c, services, c.get('asker')))
  app.get('/variance/:file{[a-z]+\\.csv}', paired, (c) => serveVarianceTable(c, services, c.get('asker')))
  for (const as of ['pdf', 'json'] as const) {
    app.get(`/estimate/:file{[^/]+\\.${as}}`, paired, (c) =>
      serveEstimate(c, { carId: withoutEnding(c.req.param('file')), as }, services, c.get('asker')),
    )
    app.get(`/variations/:carId/:file{[^/]+\\.${as}}`, paired, (c) => {
      const ids = { carId: c.req.param('carId'), variationId: withoutEnding(c.req.param('file')), as }
      return serveVariation(c, ids, services, c.get('asker'))
    })
  }
  for (const as of ['zip', 'panelcar', 'pdf'] as const)
    app.get(`/car-files/:file{[^/]+\\.${as}}`, paired, (c) =>
      serveCarFile(c, { carId: withoutEnding(c.req.param('file')), as }, services, c.get('asker')),
    )
  app.put('/whole-workshop', paired, (c) => receiveWhole(c, services, c.get('asker')))
  app.get('/whole-workshop.zip', paired, (c) => serveWhole(c, services, c.get('asker')))
  app.get('/take-out/:file', paired, (c) => serveTakeOut(c, services, c.get('asker')))
  app.get('/plan/:of{person|bay}/:file', paired, (c) => servePlan(c, deps))

  const screenOrHowToPair = letIn(pairing, (c) => pairing.showForm(c, 401))
  app.get('*', screenOrHowToPair, (c) => serveScreen(c, deps.readScreen))
  app.notFound((c) => refused(c, 404, noSuchAddress))
  return async (request, peer, door) => app.fetch(request, { peer, door })
}

interface Asked {
  Bindings: { peer: Peer; door: Door }
  Variables: { asker: Asker }
}

/**
 * The one check of who may come in: a paired device, known by its cookie.
 *
 * @param given what of an answer goes out to the one who asked
 */
function letIn(
  pairing: Pairing,
  deny: (c: Context) => Response | Promise<Response>,
  given: (answer: Response, asker: Asker) => Response = (answer) => answer,
): MiddlewareHandler<Asked> {
  return async (c, next) => {
    const asker = pairing.askerOf(c)
    if (asker === null) return deny(c)
    c.env.peer.isPaired?.()
    c.set('asker', asker)
    await next()
    c.res = given(c.res, asker)
    return undefined
  }
}

/** Who asks for the head alone is answered without the body, which is given up, so that no file or snapshot stays open behind it. */
const headAlone: MiddlewareHandler = async (c, next) => {
  await next()
  // One that has broken off by then is open no more.
  if (c.req.method === 'HEAD') await c.res.body?.cancel().catch(() => undefined)
}

function withoutEnding(file: string): string {
  return file.slice(0, file.lastIndexOf('.'))
}

function notLetIn(pairing: Pairing, c: Context): Refusal {
  return pairing.wasShutOut(c) ? shutOut : notPaired
}

/** In the form that the typed client reads, live connections included. */
function unpairedCall(c: Context, refusal: Refusal): Response {
  const data = { code: 'UNAUTHORIZED', httpStatus: 401, refusal }
  return c.json(
    { error: { message: refusal.message, code: TRPC_ERROR_CODES_BY_KEY.UNAUTHORIZED, data } },
    401,
  )
}

/**
 * The sender is gone before the end of what it sends: Node ends the reading with this code. Nobody hears the answer, and a line in
 * the log for each would let strangers push out all others.
 */
const isBrokenOff = (error: unknown): boolean =>
  error instanceof Error && 'code' in error && error.code === 'ECONNRESET'

/** Message and place of a defect; messages are cut, as they may repeat what was entered. */
function defectWords(error: unknown): string {
  if (!(error instanceof Error)) return String(error).slice(0, 200)
  const frames = error.stack?.split('\n').filter((line) => line.trimStart().startsWith('at ')) ?? []
  return [`${error.name}: ${error.message.slice(0, 200)}`, ...frames].join('\n')
}

const { refusal: notPaired } = refuse(
  'not-paired',
  'This screen is not paired with the workshop.',
  'Ask a manager for a pairing code and let it in, or open Panelwright on its own computer.',
)
const { refusal: shutOut } = refuse(
  'not-paired',
  'This device was shut out of the workshop.',
  'Ask a manager for a pairing code and let it in again.',
)
const { refusal: tooMuch } = refuse(
  'bad-input',
  'This is more than is taken at once.',
  'Send it in smaller parts.',
)
const { refusal: noSuchAddress } = refuse(
  'unknown',
  'There is nothing at this address.',
  'Open Panelwright from its start page.',
)
