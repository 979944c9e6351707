import { fetchRequestHandler } from '@trpc/server/adapters/fetch'
import { Hono, type Context, type MiddlewareHandler } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { refuse } from '../../domain/refusal.ts'
import type { ApiServices } from './api-services.ts'
import type { ApiDeps } from './deps.ts'
import { guardOrigin, refused, secureHeaders } from './guard.ts'
import { pairingPage } from './pages.ts'
import { createPairing, type Asker } from './pairing.ts'
import { createPhotoRoutes } from './photos.ts'
import { notPaired } from './refused-error.ts'
import { createRevisions } from './revisions.ts'
import { createRouter } from './router.ts'
import { serveScreen } from './screens.ts'
import { createSessions } from './sessions.ts'

export type Handler = (request: Request) => Promise<Response>

/** Far above the largest command and the largest file of hours; photos come another way. */
const MOST_CALL_BYTES = 16 * 1024 * 1024
const MOST_CALLS_AT_ONCE = 20
const CALLS = '/trpc'

/** The one handler of everything that screens ask for. It needs no socket, only requests. */
export function createApi(deps: ApiDeps): Handler {
  const services: ApiServices = {
    deps,
    sessions: createSessions(deps.db, deps.now),
    revisions: createRevisions(deps.db, deps.closing),
  }
  const pairing = createPairing(deps)
  const router = createRouter(services)
  const photos = createPhotoRoutes(deps)
  const app = new Hono()

  app.onError((error, c) => {
    deps.log(`${c.req.method} ${c.req.path}: ${defectWords(error)}`)
    return refused(c, 500, defect)
  })
  app.use(secureHeaders)
  app.use(guardOrigin(deps.authority))

  app.get('/', async (c, next) => {
    const secret = c.req.query('enter')
    return secret === undefined ? next() : pairing.enter(c, secret)
  })

  app.use(`${CALLS}/*`, bodyLimit({ maxSize: MOST_CALL_BYTES, onError: (c) => refused(c, 413, tooMuch) }))
  app.all(`${CALLS}/*`, (c) =>
    fetchRequestHandler({
      endpoint: CALLS,
      req: c.req.raw,
      router,
      maxBatchSize: MOST_CALLS_AT_ONCE,
      createContext: () => ({ asker: pairing.askerOf(c) }),
      onError: ({ error, path }) => {
        if (error.code === 'INTERNAL_SERVER_ERROR') deps.log(`${path}: ${defectWords(error.cause ?? error)}`)
      },
    }),
  )

  const asPaired = pairedOnly((c) => pairing.askerOf(c))
  app.put('/photos', asPaired, (c) => photos.put(c))
  app.get('/photos/:sha256/:size', asPaired, (c) => photos.get(c, c.req.param('sha256'), c.req.param('size')))

  app.get('*', (c) =>
    pairing.askerOf(c) === null ? c.html(pairingPage, 401) : serveScreen(c, deps.readScreen),
  )
  app.notFound((c) => refused(c, 404, noSuchAddress))
  return async (request) => app.fetch(request)
}

function pairedOnly(askerOf: (c: Context) => Asker | null): MiddlewareHandler {
  return async (c, next) => (askerOf(c) === null ? refused(c, 401, notPaired) : next())
}

/** Message and place of a defect; messages are cut, as they may repeat what was entered. */
function defectWords(error: unknown): string {
  if (!(error instanceof Error)) return String(error).slice(0, 200)
  const frames = error.stack?.split('\n').filter((line) => line.trimStart().startsWith('at ')) ?? []
  return [`${error.name}: ${error.message.slice(0, 200)}`, ...frames].join('\n')
}

const { refusal: defect } = refuse(
  'storage',
  'Something went wrong in Panelwright itself.',
  'Try again. If it stays so, look at the window where Panelwright was started and report what it says.',
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
