import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import process from 'node:process'
import { setTimeout } from 'node:timers/promises'
import { launchProgram, type LaunchedProgram } from '../support/program.ts'
import { createRandom, type Random } from '../support/random.ts'
import { verifyFolder, type Book, type Writing } from './kill-book.ts'
import { createSetUp, createWork, writerId } from './kill-work.ts'
import { createWriter, type Writer } from './kill-writer.ts'

export interface KillFigures {
  readonly kills: number
  /** Commands, and imports of several, that were acknowledged over all hosts: every one is in the journal. */
  readonly commands: number
  /** The same for photos. */
  readonly photos: number
  /** Commands and photos that were under way when a kill came. */
  readonly unanswered: number
  /** Those of them that were recorded all the same, wholly. */
  readonly recorded: number
  /** Whatever is not as it must be; empty when all is well. */
  readonly problems: readonly string[]
}

/**
 * Starts the program on one data folder again and again, writes to it over HTTP from several screens at once and kills
 * it at random moments: sometimes while it opens the folder or is set up, mostly some answers later. Each host that
 * opens the folder after a kill finds all that was acknowledged over all hosts, and nothing by half; then it gets again
 * what the one before did not answer.
 *
 * The seed fixes what each screen sends and after how many answers the kill comes; the last few milliseconds and the
 * order among the screens are the machine's. A kill is no power cut: what was written and not synced outlives it.
 */
export async function runKills(
  kills: number,
  seed: number,
  tell: (line: string) => void = () => {},
): Promise<KillFigures> {
  const soak = createSoak(seed)
  let run = 0
  try {
    while (run < kills && soak.problems.length === 0) {
      run += 1
      await runHost(soak, `before kill ${run}`, (program) => writeUntilKilled(soak, program))
      tell(`kill ${run}: ${JSON.stringify(figuresOf(soak))}`)
    }
    if (soak.problems.length === 0) await finish(soak)
  } finally {
    rmSync(soak.dataDir, { recursive: true })
  }
  return { kills: run, ...figuresOf(soak), problems: soak.problems }
}

/** How often to kill: PANELWRIGHT_KILLS where it is set. */
export function killsAsked(usual: number): number {
  const kills = Number(process.env.PANELWRIGHT_KILLS ?? usual)
  if (!Number.isInteger(kills) || kills < 1)
    throw new Error('PANELWRIGHT_KILLS must be a whole number from 1.')
  return kills
}

interface Soak {
  readonly dataDir: string
  readonly random: Random
  readonly book: Book
  readonly founder: Writer
  readonly writers: readonly Writer[]
  readonly problems: string[]
  readonly unanswered: Set<Writing>
}

const WRITERS = 4

function createSoak(seed: number): Soak {
  const book: Book = { sent: new Set(), answers: new Map(), recovered: new Set() }
  const people = Array.from({ length: WRITERS }, (_, index) => writerId(index + 1))
  return {
    dataDir: mkdtempSync(join(tmpdir(), 'kills-')),
    random: createRandom(seed),
    book,
    founder: createWriter(createSetUp(people), book),
    writers: people.map((personId, index) => createWriter(createWork(personId, seed * 100 + index), book)),
    problems: [],
    unanswered: new Set(),
  }
}

/** Whatever goes wrong is a problem with the moment's name, and the process is gone at the end. */
async function runHost(
  { dataDir, problems }: Soak,
  when: string,
  use: (program: LaunchedProgram) => Promise<void>,
): Promise<void> {
  const program = launchProgram(dataDir, 0)
  try {
    await use(program)
  } catch (error) {
    problems.push(`${when}: ${String(error)}`)
  } finally {
    await program.kill()
  }
  if (program.errors() !== '') problems.push(`${when} the host wrote: ${program.errors()}`)
}

/** About how long the program takes to open its folder and to load. */
const OPENING_MS = 500

async function writeUntilKilled(soak: Soak, program: LaunchedProgram): Promise<void> {
  const { random, book, founder, writers } = soak
  const whileOpening = random.between(1, 6) === 1
  const answersBefore = random.between(0, 48)
  const waitMs = random.next() * (whileOpening ? OPENING_MS : 30)
  if (whileOpening) {
    await setTimeout(waitMs)
    return
  }
  const windowUrl = await program.address
  await requireAll(soak)

  let left = answersBefore
  let isKilled = false
  const kill = async () => {
    await setTimeout(waitMs)
    isKilled = true
    await program.kill()
  }
  const answered = () => {
    left -= 1
    if (left === 0) void kill()
  }
  if (answersBefore === 0) void kill()
  if (await founder.write(windowUrl, answered))
    await Promise.all(writers.map((writer) => writer.write(windowUrl, answered)))
  if (!isKilled) throw new Error('the host ended by itself')
  for (const writing of unansweredOf(book)) soak.unanswered.add(writing)
}

/** The host after the last kill gets what that one left unanswered, and the next one still has it. */
async function finish(soak: Soak): Promise<void> {
  await runHost(soak, 'at the end', async (program) => {
    const windowUrl = await program.address
    await requireAll(soak)
    for (const writer of [soak.founder, ...soak.writers]) await writer.finish(windowUrl)
    const { length } = unansweredOf(soak.book)
    if (length > 0) throw new Error(`${length} requests were not answered although nothing was killed`)
  })
  await runHost(soak, 'in the end', async (program) => {
    await program.address
    await requireAll(soak)
  })
}

async function requireAll({ dataDir, book, problems }: Soak): Promise<void> {
  problems.push(...(await verifyFolder(dataDir, book)))
  if (problems.length > 0) throw new Error('the folder is not as it must be')
}

function unansweredOf({ sent, answers }: Book): readonly Writing[] {
  return [...sent].filter((writing) => !answers.has(writing))
}

function figuresOf({ book, unanswered }: Soak) {
  const answered = [...book.answers.keys()]
  return {
    commands: answered.filter(({ what }) => what === 'facts').length,
    photos: answered.filter(({ what }) => what === 'photo').length,
    unanswered: unanswered.size,
    recorded: book.recovered.size,
  }
}
