import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { checkDatabase } from '../../db/check.ts'
import { photosFolder, reportsFolder } from '../../db/data-paths.ts'
import { executeCommand } from '../../db/execute-command.ts'
import type { CommandRequest } from '../../db/gather.ts'
import { chainHead } from '../../db/journal.ts'
import { inspectPhoto } from '../../db/photos/inspect-photo.ts'
import { openPhotoStore } from '../../db/photos/photo-store.ts'
import { keepPlan } from '../../db/plans.ts'
import { storeReport } from '../../db/report-files.ts'
import { carIdSchema, type PlanId } from '../../domain/ids.ts'
import { recordEveryKind } from '../db/every-kind.ts'
import { createTestHost, type TestHost, type TestScreen } from '../support/host.ts'
import { createTestPhoto } from '../support/images.ts'
import { simplePlan } from '../support/kept-plan.ts'
import { createRandom, type Random } from '../support/random.ts'
import { manager, welder } from '../support/workshop.ts'
import { recordPhotos, requestsOf } from './story.ts'
import { createMutator, type Json, type Mutator } from './fuzz-values.ts'

/** One workshop that is asked strange things, with the story of every kind of command that goes on in it meanwhile. */
export interface World {
  readonly host: TestHost
  readonly random: Random
  readonly mutator: Mutator
  readonly manager: TestScreen
  readonly technician: TestScreen
  /** A folder of its own, in which everything that names a folder is kept. */
  readonly folder: string
  readonly story: readonly CommandRequest[]
  /** How many commands of the story were given by now. */
  readonly told: () => number
  /** Gives the next command of the story. */
  readonly goOn: () => Promise<void>
  /** Everything that the check finds wrong. */
  readonly check: () => Promise<readonly string[]>
  readonly close: () => Promise<void>
}

export async function createWorld(seed: number): Promise<World> {
  const host = await createTestHost({ readScreen: (path) => (path === '/index.html' ? PAGE : null) })
  const { workshop } = host
  // Codes that are set by strange commands are hashed at the least cost, as those of every test are.
  workshop.db = Object.assign(workshop.db, { codeCost: 16 })
  const folder = mkdtempSync(join(tmpdir(), 'panelwright-fuzz-'))
  const screens = { manager: await host.openScreen(), technician: await host.openScreen() }
  const story = await tellStory(host, screens.manager)
  const random = createRandom(seed)
  const examples = story.map(({ command }) => command as unknown as Json)
  let told = 0

  const signIn = async (): Promise<void> => {
    // The wrong codes of strange commands must not shut the others out.
    workshop.db.writer.sqlite.exec('DELETE FROM code_lock')
    await screens.manager.signIn(manager).catch(() => {})
    await screens.technician.signIn(welder).catch(() => {})
  }
  const goOn = async (): Promise<void> => {
    const request = story[told]
    if (request === undefined) return
    told += 1
    workshop.now = Math.max(workshop.now, request.now)
    await signIn()
    give(host, request)
  }
  return {
    host,
    random,
    mutator: createMutator(random, examples, seed),
    ...screens,
    folder,
    story,
    told: () => told,
    goOn,
    check: () => checkWorld(host),
    close: async () => {
      await host.close()
      rmSync(folder, { recursive: true, force: true })
    },
  }
}

const PAGE = { type: 'text/html', bytes: new TextEncoder().encode('<html><head></head><p>screens</html>') }

/** The story as it is told in a workshop beside, with photos and a report that the host has. */
async function tellStory({ workshop }: TestHost, screen: TestScreen): Promise<readonly CommandRequest[]> {
  const photos: string[] = []
  for (const color of ['#933', '#777', '#345']) {
    const put = await screen.upload(await createTestPhoto({ width: 60, height: 40, color }))
    photos.push(((await put.json()) as { readonly sha256: string }).sha256)
  }
  const reports = reportsFolder(workshop.dataDir ?? '')
  const report = await storeReport(reports, 'pdf', Buffer.from('%PDF-1.7 a report'))
  const page = await storeReport(reports, 'html', Buffer.from('<!doctype html>a report'))
  return requestsOf((beside) => {
    recordPhotos(beside.db, photos)
    recordEveryKind(beside, photos, report, page)
  })
}

/** What strange commands have done meanwhile may stand in its way. */
function give({ workshop: { db } }: TestHost, request: CommandRequest): void {
  const { kind, carId, payload } = request.command
  if (kind === 'takePlan') {
    const { planId } = payload as { readonly planId: PlanId }
    const plan = simplePlan(carIdSchema.parse('car-s-101'), { finish50: null })
    keepPlan(
      db,
      { planId, plan, why: 'proposal', cause: 'A new lid is asked for.', revision: 1 },
      request.now,
    )
  }
  const head = kind === 'issueReport' && carId !== null ? { head: chainHead(db, carId) } : {}
  executeCommand(db, {
    ...request,
    command: { ...request.command, payload: { ...(payload as object), ...head } },
  })
}

async function checkWorld({ workshop }: TestHost): Promise<readonly string[]> {
  const { db, dataDir } = workshop
  const photos = await openPhotoStore(photosFolder(dataDir ?? ''), { inspect: inspectPhoto })
  if (!photos.ok) return [photos.problem.message]
  const findings = await checkDatabase(db, photos.value)
  return findings.filter(({ severity }) => severity === 'fault').map(({ what }) => what)
}
