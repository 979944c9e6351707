import { setTimeout } from 'node:timers/promises'
import type { Fact } from '../../domain/facts.ts'
import { doubles, ledgerProblems, readFacts, readJournal, viewHashes } from './device-check.ts'
import { settledWords, type DeviceScreen } from './device-screen.ts'
import type { Living, PlainDevice, ScreenDevice } from './device-shapes.ts'

/** A device gives a connection that moves nothing up after a minute. */
const STUCK_MS = 90_000
const LOOK_MS = 500

/**
 * Lets everybody end what they are on; resolves when nothing waits, or when nothing has been sent for long. How long many photos
 * take is the machine's.
 *
 * @returns what waits all the same
 */
export async function settle({ floor, plain, screens }: Living): Promise<readonly string[]> {
  await Promise.all([
    ...plain.map(({ work }) => Promise.race([work.finish(), setTimeout(STUCK_MS)])),
    ...screens.map(({ screen }) => screen.finish()),
  ])
  let before = ''
  let movedAt = Date.now()
  for (;;) {
    const left = [...plain.flatMap(waitingOn), ...missingOf(screens, readFacts(floor.dataDir))]
    const now = left.join()
    if (now !== before) movedAt = Date.now()
    if (left.length === 0 || Date.now() > movedAt + STUCK_MS) return left
    before = now
    await setTimeout(LOOK_MS)
  }
}

function waitingOn({ worker, page }: PlainDevice): readonly string[] {
  const { waiting, photos, broken } = page().outbox.state()
  const onTheWay = photos.filter(({ state }) => state !== 'refused').length
  if (broken !== null) return [`${worker.name}: ${broken.message}`]
  return waiting + onTheWay === 0
    ? []
    : [`${waiting} entries and ${onTheWay} photos still wait on the device of ${worker.name}`]
}

/** What was given to a browser and is not in the journal, unless it was refused. */
function missingOf(screens: readonly ScreenDevice[], facts: readonly Fact[]): readonly string[] {
  const ids = new Set<string>(facts.map(({ commandId }) => commandId))
  const digests = new Set(
    facts.flatMap((fact) => (fact.kind === 'photoAttached' ? [fact.payload.sha256] : [])),
  )
  return screens.flatMap(({ screen, worker }) =>
    [
      ...[...screen.photos].filter((sha256) => !digests.has(sha256)).map((sha256) => `photo ${sha256}`),
      ...[...screen.sent].filter((id) => ids.has(id) === screen.refused.has(id)),
    ].map(
      (what) =>
        `${what} of the browser of ${worker.name} is not in the journal, or is there although it was refused`,
    ),
  )
}

/** Holds everything that was entered against the journal, which is checked by itself. */
export async function journalProblems({ floor, host, plain, screens }: Living): Promise<readonly string[]> {
  const { facts, findings } = await readJournal(floor.dataDir)
  return [
    ...findings,
    ...doubles(facts),
    ...plain.flatMap(({ work, page }) => {
      const { refused, photos } = page().outbox.state()
      return [
        ...ledgerProblems(
          work.ledger,
          facts,
          new Map(refused.map(({ command, refusal }) => [command.id, refusal.message])),
        ),
        ...photos.flatMap(({ refusal }) =>
          refusal === null ? [] : [`a photo was refused: ${refusal.message}`],
        ),
      ]
    }),
    ...screens.flatMap(({ screen }) => screen.errors),
    ...(host.errors() === '' ? [] : [`the host wrote: ${host.errors()}`]),
  ]
}

/** A view tells of the minute it is asked in: what differs is asked again, as the minute may have turned. */
const TRIES = 5

/** Every device must be answered the same; screens that stayed open must say what those say that are opened anew. */
export async function compareScreens(
  living: Living,
): Promise<{ readonly compared: number; readonly differing: readonly string[] }> {
  let result = { compared: 0, differing: [] as readonly string[] }
  for (let tries = 0; tries < TRIES; tries += 1) {
    const views = await compareViews(living)
    const words = await compareWords(living)
    result = {
      compared: views.compared + words.compared,
      differing: [...views.differing, ...words.differing],
    }
    if (result.differing.length === 0) break
    await setTimeout(LOOK_MS)
  }
  return result
}

async function compareViews({ floor, plain }: Living) {
  const each = await Promise.all(plain.map(({ net }) => viewHashes(net, floor)))
  const names = [...(each[0]?.keys() ?? [])]
  const differing = names.filter((name) => new Set(each.map((hashes) => hashes.get(name))).size !== 1)
  return {
    compared: names.length * each.length,
    differing: differing.map((name) => `${name} differs between devices`),
  }
}

async function compareWords({ floor, screens }: Living) {
  const paths = ['/cars', '/shop-floor', ...floor.carIds.map((id) => `/cars/${id}`)]
  const differing: string[] = []
  for (const path of paths) {
    const words = await Promise.all(screens.map(({ screen }) => screen.wordsAt(path)))
    if (new Set(words).size > 1) differing.push(`the screens at ${path} differ:\n${words.join('\n--\n')}`)
  }
  for (const { screen, worker } of screens) {
    const lines = await staleLines(screen)
    if (lines.length > 0)
      differing.push(`the open screen of ${worker.name} does not say '${lines.join(' | ')}'`)
  }
  return { compared: (paths.length + 1) * screens.length, differing }
}

/** What a screen opened anew says and one that stayed open does not, beside what the latter tells of the last things done on it. */
async function staleLines({ page, wordsAt }: DeviceScreen): Promise<readonly string[]> {
  const { pathname, search } = new URL(page.url())
  const open = (await settledWords(page)).split('\n')
  const anew = (await wordsAt(pathname + search)).split('\n')
  return anew.filter((line) => !open.includes(line))
}
