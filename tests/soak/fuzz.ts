import process from 'node:process'
import { setTimeout } from 'node:timers/promises'
import { everyAnswer } from '../support/every-view.ts'
import type { TestHost } from '../support/host.ts'
import { strangeCall } from './fuzz-calls.ts'
import { strangeCommand } from './fuzz-commands.ts'
import { createFileDoors } from './fuzz-files.ts'
import { strangeAddress } from './fuzz-urls.ts'
import { faultOf, isGranted, readAnswer } from './fuzz-judge.ts'
import type { Strange } from './fuzz-strange.ts'
import { createWorld, type World } from './fuzz-world.ts'

export interface FuzzFigures {
  readonly cases: number
  /** Cases by the door that they came by. */
  readonly doors: Readonly<Record<string, number>>
  /** What answering them took in all, milliseconds by door. */
  readonly tookMs: Readonly<Record<string, number>>
  /** Cases that were granted, and facts that they added. */
  readonly granted: number
  readonly facts: number
  readonly statuses: Readonly<Record<string, number>>
  /** The longest answer, and the input that it was to. */
  readonly slowestMs: number
  readonly slowest: string
  /** Resident memory at the end, and the most at the end of any world, MB. */
  readonly rssMb: number
  readonly mostRssMb: number
  readonly problems: readonly string[]
}

/** So many cases, then a workshop anew; a problem says the seed of its own, so that it is repeated without the others. */
const CASES_OF_WORLD = 4_000
/** One that does not answer at all would hold the run up for ever. */
const HANGS_MS = 120_000
const MOST_PROBLEMS = 20

/**
 * Asks a working host strange things, one after the other, while a story with every kind of command goes on in it: commands,
 * calls, imports, files, images and addresses that are nearly right, or not at all. Every answer is one of those that the
 * host states, with words; what is refused adds no fact; at the end of each world every view still answers and the check
 * finds nothing.
 */
export async function runFuzz(
  cases: number,
  seed: number,
  tell: (line: string) => void = () => {},
): Promise<FuzzFigures> {
  const figures = new Figures()
  const unhandled = (error: unknown) => figures.problem(`an error that nobody handled: ${wordsOf(error)}`)
  process.on('unhandledRejection', unhandled).on('uncaughtException', unhandled)
  try {
    for (let world = 0; figures.cases < cases && figures.problems.length < MOST_PROBLEMS; world++) {
      const count = Math.min(CASES_OF_WORLD, cases - figures.cases)
      await runWorld(seed + world, count, figures)
      tell(`world ${seed + world}: ${JSON.stringify({ ...figures.told(), slowest: undefined })}`)
    }
  } finally {
    process.off('unhandledRejection', unhandled).off('uncaughtException', unhandled)
  }
  return figures.told()
}

async function runWorld(seed: number, cases: number, figures: Figures): Promise<void> {
  const world = await createWorld(seed)
  const files = await createFileDoors(world)
  figures.repeat = `npm run soak -- fuzz ${seed} ${cases}`
  try {
    for (let at = 0; at < cases && figures.problems.length < MOST_PROBLEMS; at++) {
      while (world.told() < (at / cases) * world.story.length) await goOn(world, figures)
      const door = pickDoor(world)
      const strange =
        door === 'command'
          ? strangeCommand(world, at)
          : door === 'call'
            ? strangeCall(world)
            : door === 'address'
              ? strangeAddress(world)
              : await files[door]()
      await askOne(world, door, strange, figures)
    }
    await atTheEnd(world, figures)
  } finally {
    await files.close()
    await world.close()
  }
}

/** A command of the story is none of the cases, but what strange ones have left behind may break it. */
async function goOn(world: World, figures: Figures): Promise<void> {
  figures.case('story', `the story: ${JSON.stringify(world.story[world.told()]?.command)}`)
  try {
    await world.goOn()
  } catch (error) {
    figures.problem(wordsOf(error))
  }
}

const SHARES = [
  ['command', 0.628],
  ['call', 0.14],
  ['address', 0.13],
  ['csv', 0.06],
  ['image', 0.025],
  ['bag', 0.008],
  ['whole', 0.004],
  ['copy', 0.005],
] as const
type Door = (typeof SHARES)[number][0]

function pickDoor({ random }: World): Door {
  let left = random.next()
  for (const [door, share] of SHARES) {
    left -= share
    if (left < 0) return door
  }
  return 'command'
}

async function askOne(world: World, door: Door, strange: Strange, figures: Figures): Promise<void> {
  const { say, ask, on = world.host } = strange
  figures.case(door, say)
  const { log } = on
  const [before, logged, begun] = [lastNumber(on), log.length, performance.now()]
  try {
    const answer = await Promise.race([ask().then(readAnswer), hangs()])
    figures.answer(answer.status, performance.now() - begun)
    const added = lastNumber(on) - before
    const fault = faultOf(answer, say.startsWith('HEAD '))
    if (fault !== null) figures.problem(fault)
    if (added > 0 && !isGranted(answer)) figures.problem(`${added} facts of something that was refused`)
    if (isGranted(answer)) figures.grant(added)
  } catch (error) {
    figures.problem(wordsOf(error))
  }
  if (log.length > logged) figures.problem(`the host reported a defect: ${log.slice(logged).join('\n')}`)
}

function lastNumber({ workshop }: TestHost): number {
  return Number(workshop.db.writer.sqlite.prepare('SELECT max(number) FROM journal').pluck().get() ?? 0)
}

async function hangs(): Promise<never> {
  await setTimeout(HANGS_MS, undefined, { ref: false })
  throw new Error(`no answer within ${HANGS_MS / 1_000} seconds`)
}

async function atTheEnd(world: World, figures: Figures): Promise<void> {
  while (world.told() < world.story.length) await goOn(world, figures)
  figures.case('end', 'every view at the end')
  try {
    await everyAnswer(world.manager, world.host.workshop.db)
  } catch (error) {
    figures.problem(`a view: ${wordsOf(error)} ${world.host.log.at(-1) ?? ''}`)
  }
  for (const what of await world.check()) figures.problem(`the check: ${what}`)
  figures.look()
}

const wordsOf = (error: unknown): string =>
  error instanceof Error ? (error.stack ?? error.message) : String(error)

class Figures {
  repeat = ''
  cases = 0
  readonly problems: string[] = []
  readonly #doors: Record<string, number> = {}
  readonly #statuses: Record<string, number> = {}
  readonly #tookMs: Record<string, number> = {}
  #door = ''
  #now = ''
  #granted = 0
  #facts = 0
  #slowestMs = 0
  #slowest = ''
  #mostRssMb = 0

  case(door: Door | 'story' | 'end', say: string): void {
    this.#now = say
    this.#door = door
    if (door === 'story' || door === 'end') return
    this.cases += 1
    this.#doors[door] = (this.#doors[door] ?? 0) + 1
  }

  answer(status: number, tookMs: number): void {
    this.#statuses[status] = (this.#statuses[status] ?? 0) + 1
    this.#tookMs[this.#door] = Math.round((this.#tookMs[this.#door] ?? 0) + tookMs)
    if (tookMs <= this.#slowestMs) return
    this.#slowestMs = Math.round(tookMs)
    this.#slowest = this.#now.slice(0, 300)
  }

  grant(facts: number): void {
    this.#granted += 1
    this.#facts += facts
  }

  problem(what: string): void {
    this.problems.push(`${what}\n  input: ${this.#now.slice(0, MOST_SAID)}\n  again: ${this.repeat}`)
  }

  look(): void {
    this.#mostRssMb = Math.max(this.#mostRssMb, rssMb())
  }

  told(): FuzzFigures {
    return {
      cases: this.cases,
      doors: this.#doors,
      tookMs: this.#tookMs,
      granted: this.#granted,
      facts: this.#facts,
      statuses: this.#statuses,
      slowestMs: this.#slowestMs,
      slowest: this.#slowest,
      rssMb: rssMb(),
      mostRssMb: this.#mostRssMb,
      problems: this.problems,
    }
  }
}

const MOST_SAID = 4_000
const rssMb = (): number => Math.round(process.memoryUsage().rss / 1024 ** 2)
