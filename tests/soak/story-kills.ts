import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import process from 'node:process'
import { setTimeout } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import { checkDatabase } from '../../db/check.ts'
import { openDatabase } from '../../db/open-database.ts'
import { createRandom, type Random } from '../support/random.ts'
import { tellStory } from './story.ts'

export interface StoryKillFigures {
  readonly kills: number
  /** How often the whole story, with every kind of command, was told to its end. */
  readonly stories: number
  /** Commands that were acknowledged over all of them. */
  readonly commands: number
  /** Kinds of commands among those that were recorded. */
  readonly kinds: number
  /** Commands that were recorded although the kill came before their answer. */
  readonly recorded: number
  readonly problems: readonly string[]
}

/**
 * Kills a process that records a story with every kind of command, at random moments, and looks in the folder: whatever was
 * acknowledged is there with the same numbers, commands follow each other as in the story, each with all of its facts or none,
 * and the check finds nothing. The next process goes on from there; a story that has come to its end is told again in a new folder.
 */
export async function runStoryKills(
  kills: number,
  seed: number,
  tell: (line: string) => void = () => {},
): Promise<StoryKillFigures> {
  const random = createRandom(seed)
  const order = tellStory().map(({ command }) => command.id as string)
  const kindOf = new Map(tellStory().map(({ command }) => [command.id as string, command.kind]))
  const figures = { kills: 0, stories: 0, commands: 0, recorded: 0 }
  const kinds = new Set<string>()
  const problems: string[] = []
  let folder = newFolder()
  try {
    while (figures.kills < kills && problems.length === 0) {
      figures.kills += 1
      const said = await writeUntilKilled(folder.dataDir, random)
      for (const [id, numbers] of said.answers) folder.answers.set(id, numbers)
      figures.commands += said.answers.size
      const found = await verify(folder, order)
      figures.recorded += found.recorded
      for (const id of folder.answers.keys()) kinds.add(kindOf.get(id) ?? '')
      problems.push(...[...said.problems, ...found.problems].map((each) => `kill ${figures.kills}: ${each}`))
      tell(`story kill ${figures.kills}: ${JSON.stringify({ ...figures, kinds: kinds.size })}`)
      if (!said.isAtEnd) continue
      figures.stories += 1
      rmSync(folder.dataDir, { recursive: true })
      folder = newFolder()
    }
  } finally {
    rmSync(folder.dataDir, { recursive: true })
  }
  return { ...figures, kinds: kinds.size, problems }
}

interface Folder {
  readonly dataDir: string
  /** Journal numbers by the command's id, as they were acknowledged or first found. */
  readonly answers: Map<string, string>
}

const newFolder = (): Folder => ({ dataDir: mkdtempSync(join(tmpdir(), 'story-')), answers: new Map() })

const writer = fileURLToPath(new URL('story-writer.ts', import.meta.url))

/** Commands of a whole story in some three kills. */
const MOST_ANSWERS = 120

async function writeUntilKilled(dataDir: string, random: Random) {
  const child = spawn(process.execPath, [writer, dataDir], { stdio: ['ignore', 'pipe', 'pipe'] })
  const closed = once(child, 'close')
  const wanted = random.between(0, MOST_ANSWERS)
  const waitMs = random.next() * 20
  let out = ''
  let errors = ''
  let isDue = false
  child.stderr.setEncoding('utf8').on('data', (text: string) => (errors += text))
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    out += text
    if (isDue || out.split('\n').length <= wanted + 1) return
    isDue = true
    void setTimeout(waitMs).then(() => child.kill('SIGKILL'))
  })
  await closed
  // A line that was cut off was not told.
  const lines = out.split('\n').slice(0, -1)
  const answers = new Map(lines.filter((line) => line.startsWith('command-')).map(splitLine))
  const refused = [...answers].filter(([, numbers]) => numbers.startsWith('refused'))
  return {
    answers,
    isAtEnd: lines.includes('end'),
    problems: [...refused.map((each) => each.join(' ')), ...(errors === '' ? [] : [errors])],
  }
}

function splitLine(line: string): [string, string] {
  const at = line.indexOf(' ')
  return [line.slice(0, at), line.slice(at + 1)]
}

/** No files of photos lie in the folder: only what is said of the database counts. */
const noPhotos = {
  verify: () => Promise.resolve({ ok: true as const, value: { byteCount: 1 } }),
  list: () => Promise.resolve({ ok: true as const, value: [] }),
}

async function verify({ dataDir, answers }: Folder, order: readonly string[]) {
  const db = openDatabase(dataDir, { readonly: true })
  try {
    const findings = await checkDatabase({ ...db, dataDir }, noPhotos)
    const rows = db.reader.sqlite
      .prepare('SELECT command_id AS id, number FROM journal ORDER BY number')
      .all() as readonly { readonly id: string; readonly number: number }[]
    const lines = Map.groupBy(rows, ({ id }) => id)
    const found = new Map(
      order.flatMap((id) =>
        lines.has(id) ? [[id, (lines.get(id) ?? []).map(({ number }) => number).join()]] : [],
      ),
    ) as Map<string, string>
    const lost = [...answers].filter(([id, numbers]) => numbers !== '' && found.get(id) !== numbers)
    const recorded = [...found.keys()].filter((id) => !answers.has(id))
    for (const id of recorded) answers.set(id, found.get(id) ?? '')
    return {
      recorded: recorded.length,
      problems: [
        ...findings
          .filter(
            ({ severity, what }) =>
              severity === 'fault' && !what.startsWith('The report') && !what.startsWith('The page'),
          )
          .map(({ what }) => what),
        ...lost.map(
          ([id, numbers]) => `${id} was acknowledged as ${numbers} and is ${found.get(id) ?? 'not there'}`,
        ),
      ],
    }
  } finally {
    db.close()
  }
}
