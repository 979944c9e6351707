import 'fake-indexeddb/auto'
import { rmSync } from 'node:fs'
import { setTimeout } from 'node:timers/promises'
import { createRandom, type Random } from '../support/random.ts'
import { openBadLine, LINE_STATES, type BadLine } from './bad-line.ts'
import { compareScreens, journalProblems, settle } from './device-end.ts'
import { setUpFloor, type Floor } from './device-floor.ts'
import { startMortalHost, type MortalHost } from './device-host.ts'
import { createDeviceNet } from './device-net.ts'
import { letIn, openPage } from './device-page.ts'
import { openScreen } from './device-screen.ts'
import { createWork } from './device-work.ts'
import type { DevicesRun, Living, PlainDevice, ScreenDevice } from './device-shapes.ts'

export interface DeviceFigures {
  readonly kills: number
  /** Connections that a line has broken. */
  readonly broken: number
  /** Apps that were closed without a word and opened anew. */
  readonly deaths: number
  /** Commands that were entered without a browser, and those of them that were acknowledged, and signatures among these. */
  readonly commands: number
  readonly acknowledged: number
  readonly signed: number
  readonly photos: number
  /** The same of the browsers. */
  readonly browserPhotos: number
  readonly browserCommands: number
  /** Seconds from the healing of the network until nothing waited on any device. */
  readonly settledS: number
  /** Views, and screens of browsers, that were the same on every device. */
  readonly compared: number
  /** Whatever is not as it must be; empty when all is well. */
  readonly problems: readonly string[]
}

/**
 * People take photos, clock and sign on their devices while the lines of these are cut, slowed, stalled and broken in the middle,
 * and the host is killed and started again. In the end all lines are good: what was entered must be in the journal once or
 * still on its device with the reason, and every screen shows the same.
 *
 * The seed fixes what each person and each line does in turn; how these meet is the machine's.
 */
export async function runDevices(
  run: DevicesRun,
  tell: (line: string) => void = () => {},
): Promise<DeviceFigures> {
  const random = createRandom(run.seed)
  const floor = setUpFloor(run.devices, Math.ceil(run.seconds / 4))
  const host = await startMortalHost(floor.dataDir, random)
  const plain: PlainDevice[] = []
  const screens: ScreenDevice[] = []
  try {
    const windowUrl = await host.windowUrl()
    for (const [at, worker] of floor.workers.entries()) {
      const own = createRandom(run.seed * 1_000 + at)
      const line = await openBadLine(host.port, own)
      if (at < run.browsers)
        screens.push({
          worker,
          line,
          random: own,
          screen: await openScreen({ windowUrl, linePort: line.port, worker, random: own }),
        })
      else plain.push(await openPlain({ worker, floor, line, windowUrl, random: own, run }))
    }
    return await live({ run, floor, host, plain, screens, random }, tell)
  } finally {
    for (const { page } of plain) page().die()
    for (const { screen } of screens) await screen.close()
    await host.end()
    for (const { line } of [...plain, ...screens]) await line.close()
    rmSync(floor.dataDir, { recursive: true })
  }
}

interface PlainOptions extends Pick<PlainDevice, 'worker' | 'line' | 'random'> {
  readonly floor: Floor
  readonly windowUrl: string
  readonly run: DevicesRun
}

async function openPlain(options: PlainOptions): Promise<PlainDevice> {
  const { worker, floor, line, windowUrl, random, run } = options
  const net = createDeviceNet(new URL(windowUrl).origin, line.port)
  await letIn(net, windowUrl)
  const store = `${worker.personId} ${run.seed}`
  let page = openPage(store, net)
  let deaths = 0
  return {
    worker,
    net,
    line,
    random,
    work: createWork(worker, floor, () => page, random),
    page: () => page,
    deaths: () => deaths,
    reopen: () => {
      deaths += 1
      page.die()
      page = openPage(store, net)
    },
  }
}

/** The bad time, then the good one. */
async function live(living: Living, tell: (line: string) => void): Promise<DeviceFigures> {
  const { run, host, plain, screens, random } = living
  const until = Date.now() + run.seconds * 1_000
  const isOver = () => Date.now() >= until
  const lines = [...plain, ...screens].map(({ line }) => line)
  const troubles = await Promise.all([
    ...plain.map((device) => workOn(device, isOver)),
    ...screens.map((device) => actOn(device, isOver)),
    ...lines.map((line) => troubleLine(line, random, isOver)),
    killNowAndThen(host, random, isOver),
  ])
  tell(`${run.seconds} s are over after ${host.kills()} kills`)
  for (const line of lines) line.become('good')
  await host.windowUrl()
  const healed = Date.now()
  const late = await settle(living)
  const settledS = (Date.now() - healed) / 1_000
  tell(late.length === 0 ? `nothing waits after ${settledS.toFixed(1)} s` : late.join('\n'))
  const journal = await journalProblems(living)
  const { compared, differing } = await compareScreens(living)
  return {
    kills: host.kills(),
    broken: sum(lines.flatMap(({ broken }) => [...broken.values()])),
    deaths: sum(plain.map(({ deaths }) => deaths())),
    ...countsOf(plain),
    browserPhotos: sum(screens.map(({ screen }) => screen.photos.size)),
    browserCommands: sum(screens.map(({ screen }) => screen.sent.size)),
    settledS,
    compared,
    problems: [...troubles.flat(), ...late, ...journal, ...differing],
  }
}

/** Longest that a person waits for one thing before they do the next. */
const PATIENCE_MS = 1_500
const MOST_PAUSE_MS = 700

async function workOn(device: PlainDevice, isOver: () => boolean): Promise<readonly string[]> {
  const { work, random } = device
  const problems: string[] = []
  while (!isOver()) {
    const act = work.act().catch((error: unknown) => void problems.push(String(error)))
    await Promise.race([act, setTimeout(PATIENCE_MS)])
    if (random.next() < 0.04 && !work.isClocking()) device.reopen()
    await setTimeout(random.next() * MOST_PAUSE_MS)
  }
  return problems
}

/** A screen may not be ready for what a person wants, as where its network is away: then they want something else. */
async function actOn({ screen, random }: ScreenDevice, isOver: () => boolean): Promise<readonly string[]> {
  while (!isOver()) {
    await screen.act().catch(() => {})
    await setTimeout(random.next() * MOST_PAUSE_MS)
  }
  return []
}

async function troubleLine(line: BadLine, random: Random, isOver: () => boolean): Promise<readonly string[]> {
  while (!isOver()) {
    line.become(random.pick(LINE_STATES))
    await setTimeout(500 + random.next() * 3_000)
  }
  return []
}

async function killNowAndThen(
  host: MortalHost,
  random: Random,
  isOver: () => boolean,
): Promise<readonly string[]> {
  while (!isOver()) {
    await setTimeout(2_000 + random.next() * 6_000)
    await host.killAndRestart()
  }
  return []
}

function countsOf(plain: readonly PlainDevice[]) {
  const ledgers = plain.map(({ work }) => work.ledger)
  const commands = ledgers.flatMap((ledger) => [...ledger.commands.values()])
  const done = commands.filter(({ told }) => told.is === 'done')
  return {
    commands: commands.length,
    acknowledged: done.length,
    signed: done.filter(({ kind }) => kind === 'passGate').length,
    photos: sum(ledgers.map(({ photos }) => photos.size)),
  }
}

const sum = (numbers: readonly number[]): number => numbers.reduce((all, each) => all + each, 0)
