import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { existsSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import process from 'node:process'
import { createInterface } from 'node:readline'
import { setTimeout } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import { checkDatabase } from '../../db/check.ts'
import { isClean } from '../../db/check-finding.ts'
import { databasePath, photosFolder } from '../../db/data-paths.ts'
import type { ReadDatabase } from '../../db/database.ts'
import { openDatabase } from '../../db/open-database.ts'
import { photoRow } from '../../db/photo-rows.ts'
import { openPhotoReader } from '../../db/photos/photo-store.ts'
import { createRandom, type Random } from '../support/random.ts'

export interface KillFigures {
  readonly kills: number
  /** Commands that were acknowledged over all runs; every one is in the journal. */
  readonly acknowledged: number
  /** The same for photos. */
  readonly photos: number
  /** Commands that were recorded though the kill came before they were acknowledged. */
  readonly unacknowledged: number
  /** Whatever is not as it must be; empty when all is well. */
  readonly problems: readonly string[]
}

/**
 * Starts a host on one data folder again and again and kills it at random moments while it writes: sometimes while it
 * opens or sets up, mostly some commands later. After every kill, all that was acknowledged over all runs must be there,
 * no command by half, and `check` must be clean.
 *
 * The seed fixes what is done and after which acknowledgement the kill comes; the last few milliseconds are the machine's.
 */
export async function runKills(
  kills: number,
  seed: number,
  tell: (line: string) => void = () => {},
): Promise<KillFigures> {
  const dataDir = mkdtempSync(join(tmpdir(), 'kills-'))
  const random = createRandom(seed)
  const told: Told = { commands: new Map(), photos: new Set() }
  const problems: string[] = []
  let recorded = 0
  try {
    for (let run = 1; run <= kills && problems.length === 0; run += 1) {
      const stderr = await killOnce(dataDir, seed, run, random, told)
      if (stderr !== '') problems.push(`run ${run}: ${stderr}`)
      if (!existsSync(databasePath(dataDir))) continue
      const found = await verify(dataDir, told)
      problems.push(...found.problems.map((problem) => `after kill ${run}: ${problem}`))
      recorded = found.recorded
      tell(`${run} kills: ${told.commands.size} commands and ${told.photos.size} photos acknowledged`)
    }
  } finally {
    rmSync(dataDir, { recursive: true })
  }
  const acknowledged = told.commands.size
  const unacknowledged = recorded - acknowledged
  return { kills, acknowledged, photos: told.photos.size, unacknowledged, problems }
}

/** What killed hosts have acknowledged before they were killed. */
interface Told {
  /** Journal numbers by command id. */
  readonly commands: Map<string, readonly number[]>
  readonly photos: Set<string>
}

/** @returns what the host wrote to standard error, which must be nothing */
async function killOnce(
  dataDir: string,
  seed: number,
  run: number,
  random: Random,
  told: Told,
): Promise<string> {
  const script = fileURLToPath(new URL('kill-child.ts', import.meta.url))
  const child = spawn(process.execPath, [script, dataDir, String(seed), String(run)], {
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  let stderr = ''
  child.stderr.setEncoding('utf8').on('data', (text: string) => (stderr += text))
  const ended = once(child, 'close')
  // One in six dies while it opens the folder or sets the workshop up.
  const linesBefore = random.between(1, 6) === 1 ? random.between(0, 3) : random.between(4, 40)
  const waitMs = random.next() * 12
  let lines = 0
  for await (const line of createInterface({ input: child.stdout })) {
    note(line, told)
    lines += 1
    // Lines that are under way when the kill comes are read to the last one: they were acknowledged.
    if (lines === linesBefore) void setTimeout(waitMs).then(() => child.kill('SIGKILL'))
    if (linesBefore === 0 && lines === 1) child.kill('SIGKILL')
  }
  await ended
  return stderr
}

function note(line: string, told: Told): void {
  const [word, id = '', numbers = ''] = line.split(' ')
  if (word === 'photo') told.photos.add(id)
  if (word === 'done') told.commands.set(id, numbers.split(',').map(Number))
}

/** As after a power cut: the folder is opened anew, and everything is looked for. */
async function verify(
  dataDir: string,
  told: Told,
): Promise<{ readonly problems: readonly string[]; readonly recorded: number }> {
  const db = openDatabase(dataDir)
  try {
    const photos = openPhotoReader(photosFolder(dataDir))
    const findings = await checkDatabase(db, photos)
    const journal = kindsByCommand(db)
    return {
      recorded: journal.size,
      problems: [
        ...(isClean(findings) ? [] : findings.map(({ what }) => what)),
        ...missingCommands(db, told),
        ...halfCommands(journal),
        ...[...told.photos]
          .filter((sha256) => photoRow(db, sha256) === null)
          .map((sha256) => `${sha256} is lost`),
      ],
    }
  } finally {
    db.close()
  }
}

function missingCommands(db: ReadDatabase, told: Told): readonly string[] {
  const numbersOf = db.reader.sqlite
    .prepare('SELECT number FROM journal WHERE command_id = ? ORDER BY number')
    .pluck()
  return [...told.commands].flatMap(([id, numbers]) => {
    const found = numbersOf.all(id).join(',')
    return found === numbers.join(',')
      ? []
      : [`${id} was acknowledged as ${numbers.join(',')}, but left '${found}'`]
  })
}

function kindsByCommand({ reader }: ReadDatabase): ReadonlyMap<string, readonly string[]> {
  const lines = reader.sqlite.prepare('SELECT command_id AS id, kind FROM journal ORDER BY number').all()
  const groups = Map.groupBy(
    lines as readonly { readonly id: string; readonly kind: string }[],
    ({ id }) => id,
  )
  return new Map([...groups].map(([id, group]) => [id, group.map(({ kind }) => kind)]))
}

/** What each command of the killed host leaves, by its first fact; all others leave one fact. */
const LEAVES: Readonly<Record<string, readonly string[]>> = {
  carAdded: ['carAdded', 'visitOpened'],
  repairAdded: ['repairAdded', 'estimateSet', 'estimateAccepted'],
}

function halfCommands(journal: ReadonlyMap<string, readonly string[]>): readonly string[] {
  return [...journal].flatMap(([id, kinds]) => {
    const [first = ''] = kinds
    if (first === 'workshopSetUp') return kinds.length > 20 ? [] : [`${id} left only ${kinds.length} facts`]
    const due = LEAVES[first] ?? [first]
    return due.join() === kinds.join() ? [] : [`${id} left only ${kinds.join()}`]
  })
}
