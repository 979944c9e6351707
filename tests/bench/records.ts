import { execFile, spawn } from 'node:child_process'
import { readFileSync, rmSync } from 'node:fs'
import { loadavg } from 'node:os'
import process from 'node:process'
import { fileURLToPath } from 'node:url'
import { parseArgs, promisify } from 'node:util'
import { folderOfYears } from './kept-years.ts'
import { startMeasuredHost } from './measured-host.ts'
import type { HostTimes } from './records-host.ts'
import type { StoryTimes } from './records-story.ts'
import { MUST_NOT_GROW, questions } from './records-views.ts'
import { codes, manager } from '../support/workshop.ts'
import { yearsFilled } from './ten-years.ts'
import { quantile, rounded, type Spread, type Timed } from './timing.ts'

export interface RecordsFigures {
  /** Of the slowest question, and which it is. Cold calls, with nothing read yet, are counted by themselves. */
  readonly viewP95Ms: number
  readonly slowestView: string
  /** The same in this thread's processor time, which a busy machine does not stretch. */
  readonly viewP95CpuMs: number
  readonly slowestViewCpu: string
  readonly coldMedianCpuMs: Readonly<Record<string, number>>
  /** A command of a kind that is sent often; without the check of a code, which is slow on purpose. */
  readonly commandP95Ms: number
  readonly commandP95CpuMs: number
  /** From starting the built host until it says its address: the median of five. */
  readonly readyMs: number
  /** The same in processor time of the whole process. */
  readonly readyCpuMs: number
  /** The most that was resident of the built host with its workers, while every view was asked for. */
  readonly memoryMb: number
  /** The same after hours, gates and variations of all years were then taken out as CSV and as a workbook each. */
  readonly memoryOfFilesMb: number
  /** By question: median time in ten years by that in one (processor time comes in steps of 4 ms), where the car is in memory, and where it is folded for it. */
  readonly growth: Readonly<Record<string, { readonly kept: number; readonly folded: number | null }>>
  readonly views: HostTimes['views']
  readonly commands: HostTimes['commands']
  /** Every kind of command, without its way over the network. */
  readonly story: StoryTimes | null
  readonly load: readonly number[]
}

const STARTS = 5
const MEMORY_ROUNDS = 12

/**
 * Ten years of records: every view and the frequent commands at the handler, each folder in a process of its own, what grows
 * against one year, and the start and memory of the built host. Options: --years N.
 */
export async function benchRecords(args: readonly string[]): Promise<RecordsFigures> {
  const { values } = parseArgs({ args: [...args], options: { years: { type: 'string', default: '10' } } })
  const years = Number(values.years)
  const one = await hostTimes(1)
  const ten = await hostTimes(years)
  const views = Object.entries(ten.views)
  const slowest = (of: 'p95' | 'cpuP95') =>
    views.reduce((worst, each) => (each[1].warm[of] > worst[1].warm[of] ? each : worst))
  const [wall, cpu] = [slowest('p95'), slowest('cpuP95')]
  const commands = Object.values(ten.commands)
  return {
    viewP95Ms: wall[1].warm.p95,
    slowestView: wall[0],
    viewP95CpuMs: cpu[1].warm.cpuP95,
    slowestViewCpu: cpu[0],
    coldMedianCpuMs: Object.fromEntries(views.map(([name, { cold }]) => [name, cold.cpuMedian])),
    commandP95Ms: Math.max(...commands.map(({ p95 }) => p95)),
    commandP95CpuMs: Math.max(...commands.map(({ cpuP95 }) => cpuP95)),
    ...(await ofBuiltHost(years)),
    growth: Object.fromEntries(
      MUST_NOT_GROW.map((name) => [
        name,
        {
          kept: growthOf(ten.views[name]?.kept, one.views[name]?.kept) ?? 0,
          folded: growthOf(ten.views[name]?.folded, one.views[name]?.folded),
        },
      ]),
    ),
    views: ten.views,
    commands: ten.commands,
    story: ten.story,
    load: loadavg().map((each) => rounded(each, 1)),
  }
}

const hostScript = fileURLToPath(new URL('./records-host.ts', import.meta.url))

async function hostTimes(years: number): Promise<HostTimes> {
  const folder = folderOfYears(years)
  const run = promisify(execFile)
  const { stdout } = await run(process.execPath, [hostScript, folder, String(years)], {
    maxBuffer: 64 * 1024 * 1024,
  })
  return JSON.parse(stdout.trim().split('\n').at(-1) ?? '') as HostTimes
}

const start = fileURLToPath(new URL('../../dist/electron/start.js', import.meta.url))

async function ofBuiltHost(
  years: number,
): Promise<Pick<RecordsFigures, 'readyMs' | 'readyCpuMs' | 'memoryMb' | 'memoryOfFilesMb'>> {
  const folder = folderOfYears(years)
  try {
    const starts: Timed[] = []
    for (let round = 0; round < STARTS; round += 1) starts.push(await startOnce(folder))
    const ready = (of: 'wall' | 'cpu') =>
      quantile(
        starts.map((each) => each[of]),
        0.5,
      )
    return { readyMs: ready('wall'), readyCpuMs: ready('cpu'), ...(await memoryOf(folder, years)) }
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

const growthOf = (ten: Spread | null | undefined, one: Spread | null | undefined): number | null =>
  ten && one ? rounded(ten.median / one.median) : null

/** The most that was resident while the manager asked for every view in rounds, and took out every file after that. */
async function memoryOf(
  folder: string,
  years: number,
): Promise<Pick<RecordsFigures, 'memoryMb' | 'memoryOfFilesMb'>> {
  const host = await startMeasuredHost(folder)
  const { origin, cookie } = host
  const ask = async (path: string, body?: unknown): Promise<void> => {
    const headers = { cookie, origin, 'content-type': 'application/json' }
    const sent = body === undefined ? {} : { method: 'POST', body: JSON.stringify(body) }
    const answer = await fetch(`${origin}${path}`, { headers, ...sent })
    await answer.arrayBuffer()
    if (answer.status >= 500) throw new Error(`${path} answered ${answer.status}.`)
    if (!path.startsWith('/trpc/') && !answer.ok) throw new Error(`${path} answered ${answer.status}.`)
  }
  await ask('/trpc/signIn', { personId: manager, code: codes[manager] })
  const filled = yearsFilled(years)
  for (let round = 0; round < MEMORY_ROUNDS; round += 1)
    for (const { query, input } of questions)
      await ask(`/trpc/${query}?input=${encodeURIComponent(JSON.stringify(input(filled, round) ?? null))}`)
  const memoryMb = host.rssPeakMb()
  for (const file of ['hours', 'gates', 'variations'])
    for (const as of ['csv', 'xlsx']) await ask(`/take-out/${file}.${as}`)
  const memoryOfFilesMb = host.rssPeakMb()
  await host.end()
  return { memoryMb, memoryOfFilesMb }
}

async function startOnce(folder: string): Promise<Timed> {
  const begun = performance.now()
  const child = spawn(process.execPath, [start, '--data', folder, '--port', '0', '--no-window'], {
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  const ready = await new Promise<Timed>((resolve, reject) => {
    child.stdout.on('data', (text: Buffer) => {
      if (text.includes('is ready at')) resolve({ wall: performance.now() - begun, cpu: cpuOf(child.pid) })
    })
    child.once('close', () => reject(new Error('The program ended before it was ready.')))
  })
  const ended = new Promise((resolve) => child.once('exit', resolve))
  child.kill('SIGTERM')
  await ended
  return ready
}

/** Processor time of a process with all its threads, ms: user and system time of Linux, in hundredths of a second. */
function cpuOf(pid: number | undefined): number {
  const [, after = ''] = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')
  const [user = 0, system = 0] = after.split(' ').slice(11, 13).map(Number)
  return (user + system) * 10
}
