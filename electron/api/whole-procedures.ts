import type { Context } from 'hono'
import { photoTotals } from '../../db/photo-rows.ts'
import { readWorkshop } from '../../db/reads.ts'
import { refuse, type Result } from '../../domain/refusal.ts'
import type { ApiServices } from './api-services.ts'
import { refused } from './guard.ts'
import { signedInManager } from './manager-here.ts'
import type { Asker } from './pairing.ts'
import { readToEnd, uploadOf } from './read-to-end.ts'
import { savedAs } from './saved-as.ts'
import { procedure } from './trpc.ts'
import type { WholeProgress } from './whole-desk.ts'

/** What there is to take out, and how far it is. */
export interface WholeView {
  readonly photos: number
  /** Of all photos, which are nearly all of it. */
  readonly photoBytes: number
  readonly progress: WholeProgress | null
}

/** How taking the workshop out and in stands; the archive itself goes by {@link serveWhole} and {@link receiveWhole}. */
export function createWholeProcedures({ deps }: ApiServices) {
  return {
    wholeWorkshop: procedure.query((): WholeView => ({
      ...photoTotals(deps.db),
      progress: deps.whole.progress(),
    })),
    /** What is done now with a workshop that is being taken in; null when none is. */
    takingIn: procedure.query((): string | null => deps.whole.takingIn()),
  }
}

/** `GET /whole-workshop.zip`: everything as one archive, streamed, for a signed-in manager. */
export function serveWhole(c: Context, services: ApiServices, asker: Asker): Response {
  const manager = signedInManager(services, asker)
  if (!manager.ok) return refused(c, 403, manager.refusal)
  const begun = services.deps.whole.begin()
  if (!begun.ok) return refused(c, 422, begun.refusal)
  return c.body(begun.value.stream, 200, savedAs(begun.value.name, 'application/zip'))
}

/**
 * `PUT /whole-workshop` takes a workshop in to this empty data folder, from the host's own window; the body is the archive as it
 * is. Answers its name.
 */
export async function receiveWhole(
  c: Context,
  { deps, revisions }: ApiServices,
  { isHostsOwn }: Asker,
): Promise<Response> {
  const { body } = c.req.raw
  const taken = await takeWhole(deps, isHostsOwn, uploadOf(body))
  if (taken.ok) {
    revisions.announce(false)
    return c.json({ name: taken.value })
  }
  await readToEnd(body, MOST_DROPPED_BYTES)
  return refused(c, 422, taken.refusal)
}

function takeWhole(
  { db, whole }: ApiServices['deps'],
  isHostsOwn: boolean,
  archive: AsyncIterable<Uint8Array>,
): Result<string> | Promise<Result<string>> {
  if (!isHostsOwn) return notHere
  return readWorkshop(db).setUp ? setUpAlready : whole.takeIn(archive)
}

/** Only this computer sends, so that reading on takes seconds. */
const MOST_DROPPED_BYTES = 8 * 1024 ** 3

const notHere = refuse(
  'not-allowed',
  'A workshop is taken in on the computer that Panelwright runs on.',
  'Open its own window there.',
)
const setUpAlready = refuse(
  'already',
  'There is a workshop in this data folder.',
  'Start Panelwright with an empty --data folder and take the workshop in there.',
)
