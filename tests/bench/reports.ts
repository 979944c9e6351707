import { execFile } from 'node:child_process'
import { createHash } from 'node:crypto'
import { mkdir, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import process from 'node:process'
import { fileURLToPath } from 'node:url'
import { promisify } from 'node:util'
import { photosFolder } from '../../db/data-paths.ts'
import { recordPhoto } from '../../db/photo-rows.ts'
import { originalPath, sizePath } from '../../db/photos/photo-files.ts'
import { type AttachmentId, attachmentIdSchema, commandIdSchema, reportIdSchema } from '../../domain/ids.ts'
import type { VisitId } from '../../domain/ids.ts'
import { repairId } from '../support/car-builder.ts'
import { createTestHost, type TestHost, type TestScreen } from '../support/host.ts'
import { choicesOf } from '../support/owner-report.ts'
import { repairPlan } from '../support/plans.ts'
import { manager } from '../support/workshop.ts'
import { watchMemory } from './memory.ts'

const CARS = 20
const PHOTOS_A_CAR = 10
const WEEK = '2026-W48'

export interface ReportsFigures {
  readonly cars: number
  readonly photos: number
  /** From asking the handler for the first report until the last is told, its originals looked for and its PDF printed. */
  readonly seconds: number
  /** Until all are issued: printed anew, their pages written, both kept on the disk and recorded. */
  readonly issueSeconds: number
  /** Processor time of the first, which a busy machine does not stretch. */
  readonly processorSeconds: number
  /** Most resident memory of the host's process, workers included, while both ran. */
  readonly peakMb: number
}

/** Prepares and then issues the reports of 20 cars, each with ten photos of 12 megapixels of its own, through the real handler. */
export async function benchReports(): Promise<ReportsFigures> {
  const folder = await mkdtemp(join(tmpdir(), 'panelwright-reports-'))
  const host = await createTestHost()
  try {
    const screen = await host.openScreen()
    await screen.signIn(manager)
    const visits = await bringIn(host, await makePhotos(folder))
    await choosePhotos(screen, visits)
    const memory = watchMemory()
    const begun = process.cpuUsage()
    const seconds = await timed(() => prepareAll(screen, visits))
    const { user, system } = process.cpuUsage(begun)
    const issueSeconds = await timed(() => issueAll(screen, visits))
    return {
      cars: CARS,
      photos: CARS * PHOTOS_A_CAR,
      seconds,
      processorSeconds: Math.round((user + system) / 100_000) / 10,
      issueSeconds,
      peakMb: memory.stop(),
    }
  } finally {
    await host.close()
    await rm(folder, { recursive: true })
  }
}

interface MadePhoto {
  readonly original: Buffer
  readonly report: Buffer
}

async function makePhotos(folder: string): Promise<readonly MadePhoto[]> {
  const script = fileURLToPath(new URL('report-photos.ts', import.meta.url))
  await promisify(execFile)(process.execPath, [script, folder, String(PHOTOS_A_CAR)])
  return Promise.all(
    Array.from({ length: PHOTOS_A_CAR }, async (_, index) => ({
      original: await readFile(join(folder, `photo-${index}.jpg`)),
      report: await readFile(join(folder, `photo-${index}-report.jpg`)),
    })),
  )
}

interface ReportedVisit {
  readonly visitId: VisitId
  readonly photos: readonly AttachmentId[]
}

async function bringIn(
  { workshop }: TestHost,
  photos: readonly MadePhoto[],
): Promise<readonly ReportedVisit[]> {
  const visits: ReportedVisit[] = []
  for (let car = 0; car < CARS; car += 1) {
    const carId = workshop.addCar(`Car ${car + 1}`, `B-${car + 1}`)
    workshop.addRepair(carId, repairId(`Boot floor ${car}`), repairPlan('Boot floor'))
    const attached: AttachmentId[] = []
    for (const [index, photo] of photos.entries()) {
      const attachmentId = attachmentIdSchema.parse(`photo-${car}-${index}`)
      const sha256 = await store(workshop, photo, `${car}-${index}`)
      const serves = [
        {
          what: 'gate' as const,
          repairId: repairId(`Boot floor ${car}`),
          gate: 'opened' as const,
          shows: 'before' as const,
          layerId: null,
        },
      ]
      const caption = `Boot floor, place ${index + 1}`
      workshop.run('attachPhoto', { attachmentId, sha256, taken: null, caption, serves }, { carId })
      attached.push(attachmentId)
    }
    visits.push({ visitId: workshop.car(carId).currentVisit!, photos: attached })
  }
  return visits
}

/** As it lies in the folder once it was sent, in its sizes; a comment makes it a file of its own (JPEG, COM segment). */
async function store(
  { db, dataDir, now }: TestHost['workshop'],
  { original, report }: MadePhoto,
  name: string,
): Promise<string> {
  const comment = Buffer.from(name)
  const segment = Buffer.from([0xff, 0xfe, 0, comment.length + 2])
  const bytes = Buffer.concat([original.subarray(0, 2), segment, comment, original.subarray(2)])
  const sha256 = createHash('sha256').update(bytes).digest('hex')
  const folder = photosFolder(dataDir ?? '')
  for (const [path, content] of [
    [originalPath(folder, sha256), bytes],
    [sizePath(folder, sha256, 'report'), report],
  ] as const) {
    await mkdir(dirname(path), { recursive: true })
    await writeFile(path, content)
  }
  const facts = { type: 'jpeg', width: 4000, height: 3000, orientation: 1, taken: null } as const
  recordPhoto(db, { sha256, byteCount: bytes.length, facts }, now)
  return sha256
}

async function choosePhotos({ client }: TestScreen, visits: readonly ReportedVisit[]): Promise<void> {
  for (const { visitId, photos } of visits) {
    const answer = await client.draftReport.mutate({ visitId, week: WEEK, choices: choicesOf({ photos }) })
    if (!answer.ok) throw new Error(answer.refusal.message)
  }
}

async function prepareAll({ client }: TestScreen, visits: readonly ReportedVisit[]): Promise<void> {
  for (const { visitId } of visits) {
    const answer = await client.prepareReport.mutate({ visitId, week: WEEK })
    const problem = answer.ok ? answer.problems[0] : answer.refusal.message
    if (problem !== undefined) throw new Error(problem)
  }
}

async function issueAll({ client }: TestScreen, visits: readonly ReportedVisit[]): Promise<void> {
  for (const [index, { visitId, photos }] of visits.entries()) {
    const answer = await client.issueReport.mutate({
      visitId,
      week: WEEK,
      choices: choicesOf({ photos }),
      reportId: reportIdSchema.parse(`report-${index}`),
      commandId: commandIdSchema.parse(`command-issue-${index}`),
    })
    if (!answer.ok) throw new Error(answer.refusal.message)
  }
}

/** Seconds to a tenth. */
async function timed(work: () => Promise<void>): Promise<number> {
  const begun = performance.now()
  await work()
  return Math.round((performance.now() - begun) / 100) / 10
}
