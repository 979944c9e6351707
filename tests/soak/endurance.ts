import { fork, type ChildProcess } from 'node:child_process'
import { randomUUID } from 'node:crypto'
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { loadavg, tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import { checkDatabase } from '../../db/check.ts'
import { isClean } from '../../db/check-finding.ts'
import { photosFolder } from '../../db/data-paths.ts'
import { demoPeople } from '../../db/demo/demo-people.ts'
import { fillDemo } from '../../db/demo/fill-demo.ts'
import type { Database } from '../../db/database.ts'
import { executeCommand } from '../../db/execute-command.ts'
import { openDatabase } from '../../db/open-database.ts'
import { inspectPhoto } from '../../db/photos/inspect-photo.ts'
import { openPhotoReader, openPhotoStore } from '../../db/photos/photo-store.ts'
import { commandIdSchema, personIdSchema, type PersonId } from '../../domain/ids.ts'
import { createRandom } from '../support/random.ts'
import { type Answered, createPerson, type EnduringPerson } from './endurance-work.ts'

export interface EnduranceFigures {
  readonly minutes: number
  readonly workshopHours: number
  readonly people: number
  readonly commands: number
  /** Such as a clock on a gate that somebody else has passed meanwhile. */
  readonly refused: number
  readonly photos: number
  readonly answers: number
  /** P95 of all answers in the first quarter and in the last, milliseconds. */
  readonly firstP95Ms: number
  readonly lastP95Ms: number
  /** Resident memory of the host at a quarter, at half and at the end, and how it went over the second half. */
  readonly rssMb: readonly number[]
  readonly rssSlopeMbPerHour: number
  /** What the host's thread still held after V8 had let go of the rest, at the same three times. */
  readonly heldMb: readonly number[]
  readonly check: 'passed' | 'failed'
  readonly load: number
  /** Whatever is not as it must be; empty when all is well. */
  readonly problems: readonly string[]
}

const SPEED = 60
const TODAY = '2026-11-23'
/** Further than from one quarter of a run to another on a machine that others use too. */
const MOST_SLOWER = 1.5
/** Of the memory at half time, over the whole second half. */
const MOST_GROWN = 0.1
/** Of the run, where memory is told apart. */
const SHARES = [0.25, 0.5, 1]

/**
 * A workshop's life at 60 times its speed: ten people look, clock on and off, take photos and leave notes, and the planner
 * plans, for so many minutes of the real clock. What they do is chosen by the seed, when it happens by the machine.
 */
export async function runEndurance(minutes: number, seed: number): Promise<EnduranceFigures> {
  const dataDir = mkdtempSync(join(tmpdir(), 'endurance-'))
  try {
    const people = await fillWorkshop(dataDir)
    const host = await startHost(dataDir)
    const random = createRandom(seed)
    const crew = await Promise.all(
      people.map(async (personId) =>
        createPerson(
          host.windowUrl,
          await enter(host.windowUrl),
          personId,
          host.clock,
          createRandom(random.between(1, 1e6)),
        ),
      ),
    )
    const begun = performance.now()
    const until = begun + minutes * 60_000
    const memory = watchMemory(host, begun, until)
    const held = watchHeld(host, begun, until)
    await Promise.all(crew.map(({ work }) => work(until)))
    const samples = await memory
    const heldMb = await held
    await host.end()
    return judged(figuresOf({ crew, samples, heldMb, begun, minutes }), await findingsOf(dataDir))
  } finally {
    rmSync(dataDir, { recursive: true, force: true })
  }
}

async function fillWorkshop(dataDir: string): Promise<readonly PersonId[]> {
  const db = openDatabase(dataDir)
  const store = await openPhotoStore(photosFolder(dataDir), { inspect: inspectPhoto })
  if (!store.ok) throw new Error(store.problem.message)
  await fillDemo({ db, photoStore: store.value, today: TODAY, seed: 'endurance', photos: 'tiny' })
  const more = ['Arlo', 'Bea', 'Cass'].map((name) => addPerson(db, name))
  db.close()
  return [...Object.values(demoPeople).map(({ id }) => id), ...more]
}

function addPerson(db: Database, name: string): PersonId {
  const personId = personIdSchema.parse(`endurance-${name.toLowerCase()}`)
  const payload = {
    personId,
    roles: ['technician'],
    skills: ['sheet metal', 'fitting', 'preparation'],
    week: null,
    absences: [],
    contact: { name, phone: '', email: '', address: '' },
    code: '2001',
  }
  const command = {
    id: commandIdSchema.parse(randomUUID()),
    kind: 'addPerson' as const,
    carId: null,
    seen: null,
    by: demoPeople.maren.id,
    code: null,
    second: null,
    happened: null,
    made: new Date().toISOString(),
    payload,
  }
  const answer = executeCommand(db, {
    command,
    device: null,
    second: null,
    now: Date.parse(`${TODAY}T09:00:00Z`),
  })
  if (!answer.ok) throw new Error(answer.refusal.message)
  return personId
}

interface Host {
  readonly windowUrl: string
  readonly clock: () => Promise<number>
  readonly rssMb: () => Promise<number>
  readonly heldMb: () => Promise<number>
  readonly end: () => Promise<void>
}

async function startHost(dataDir: string): Promise<Host> {
  const script = fileURLToPath(new URL('./endurance-host.ts', import.meta.url))
  const args = [dataDir, String(Date.parse(`${TODAY}T10:00:00Z`)), String(SPEED)]
  const child = fork(script, args, { execArgv: [...process.execArgv, '--expose-gc'] })
  const [{ windowUrl }] = (await once(child, 'message')) as [{ windowUrl: string }]
  let last = await ask(child)
  let at = performance.now()
  let before: Promise<unknown> = Promise.resolve()
  // One after the other, so that each gets the answer that is its own.
  const state = async (asked?: 'collect'): Promise<HostState> => {
    const answer = before.then(() => ask(child, asked))
    before = answer
    last = await answer
    at = performance.now()
    return last
  }
  return {
    windowUrl,
    // Asked for seldom: between two answers both clocks go alike.
    clock: async () => last.now + (performance.now() - at) * SPEED,
    rssMb: async () => (await state()).rssMb,
    heldMb: async () => (await state('collect')).heldMb,
    end: async () => {
      child.send('end')
      await once(child, 'exit')
    },
  }
}

interface HostState {
  readonly now: number
  readonly rssMb: number
  readonly heldMb: number
}

async function ask(child: ChildProcess, asked = 'how are you?'): Promise<HostState> {
  const answer = once(child, 'message')
  child.send(asked)
  const [state] = (await answer) as [HostState]
  return state
}

async function enter(windowUrl: string): Promise<string> {
  const entered = await fetch(windowUrl, { redirect: 'manual' })
  return entered.headers.get('set-cookie')?.split(';')[0] ?? ''
}

interface Sample {
  readonly at: number
  readonly mb: number
}

const BETWEEN_SAMPLES_MS = 2_000

async function watchMemory(host: Host, begun: number, until: number): Promise<readonly Sample[]> {
  const samples: Sample[] = []
  while (performance.now() < until) {
    samples.push({ at: performance.now() - begun, mb: await host.rssMb() })
    await setTimeout(BETWEEN_SAMPLES_MS)
  }
  return samples
}

async function watchHeld(host: Host, begun: number, until: number): Promise<readonly number[]> {
  const held: number[] = []
  for (const share of SHARES) {
    await setTimeout(begun + share * (until - begun) - performance.now())
    held.push(Math.round(await host.heldMb()))
  }
  return held
}

async function findingsOf(dataDir: string): Promise<readonly string[]> {
  const db = openDatabase(dataDir, { readonly: true })
  const findings = await checkDatabase(db, openPhotoReader(photosFolder(dataDir)))
  db.close()
  return isClean(findings) ? [] : findings.map(({ what }) => what)
}

type Unjudged = Omit<EnduranceFigures, 'check' | 'problems'>

function figuresOf(run: {
  readonly crew: readonly EnduringPerson[]
  readonly samples: readonly Sample[]
  readonly heldMb: readonly number[]
  readonly begun: number
  readonly minutes: number
}): Unjudged {
  const { crew, samples, heldMb, begun, minutes } = run
  const whole = minutes * 60_000
  const answers = crew.flatMap((person) => person.answers)
  const sum = (of: 'commands' | 'refused' | 'photos') => crew.reduce((all, { did }) => all + did[of], 0)
  const inQuarter = (quarter: number) =>
    answers.filter(({ at }) => Math.floor((4 * (at - begun)) / whole) === quarter)
  const mbAt = (share: number) => Math.round(samples[Math.floor(share * (samples.length - 1))]?.mb ?? 0)
  return {
    minutes,
    workshopHours: (minutes * SPEED) / 60,
    people: crew.length,
    commands: sum('commands'),
    refused: sum('refused'),
    photos: sum('photos'),
    answers: answers.length,
    firstP95Ms: p95(inQuarter(0)),
    lastP95Ms: p95(inQuarter(3)),
    rssMb: SHARES.map(mbAt),
    rssSlopeMbPerHour: Math.round(slope(samples.filter(({ at }) => at >= whole / 2)) * 3_600_000),
    heldMb,
    load: loadavg()[1] ?? 0,
  }
}

function judged(figures: Unjudged, findings: readonly string[]): EnduranceFigures {
  const { firstP95Ms, lastP95Ms, rssMb, rssSlopeMbPerHour, heldMb, minutes } = figures
  const heldMore = (heldMb[2] ?? 0) - (heldMb[1] ?? 0)
  const grown = (rssSlopeMbPerHour * minutes) / 120
  const problems = [
    ...findings.map((what) => `check: ${what}`),
    ...(lastP95Ms > MOST_SLOWER * firstP95Ms ? ['answers take longer at the end than at the beginning'] : []),
    ...(grown > MOST_GROWN * (rssMb[1] ?? 0) ? [`memory has grown by ${Math.round(grown)} MB`] : []),
    ...(heldMore > MOST_GROWN * (heldMb[1] ?? 0) ? [`${heldMore} MB more are held than at half time`] : []),
  ]
  return { ...figures, check: findings.length === 0 ? 'passed' : 'failed', problems }
}

function p95(answers: readonly Answered[]): number {
  const sorted = answers.map(({ ms }) => ms).toSorted((a, b) => a - b)
  return Math.round(sorted[Math.max(0, Math.ceil(0.95 * sorted.length) - 1)] ?? 0)
}

/** Of the straight line through the samples by least squares, megabytes a millisecond. */
function slope(samples: readonly Sample[]): number {
  const mean = (of: (sample: Sample) => number) =>
    samples.reduce((sum, sample) => sum + of(sample), 0) / Math.max(1, samples.length)
  const [at, mb] = [mean((sample) => sample.at), mean((sample) => sample.mb)]
  const spread = samples.reduce((sum, sample) => sum + (sample.at - at) ** 2, 0)
  const shared = samples.reduce((sum, sample) => sum + (sample.at - at) * (sample.mb - mb), 0)
  return spread === 0 ? 0 : shared / spread
}
