import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { readFileSync } from 'node:fs'
import process from 'node:process'
import { fileURLToPath } from 'node:url'
import type { LoopDelay } from './loop-watch.ts'

/** The built host in a process of its own, with a screen that is let in. */
export interface MeasuredHost {
  readonly origin: string
  readonly cookie: string
  /** The most that was resident since its start, its workers included: VmHWM of Linux, in MB of 10^6 bytes. */
  readonly rssPeakMb: () => number
  /** Since it was last asked for. */
  readonly loopDelay: () => Promise<LoopDelay>
  readonly end: () => Promise<void>
}

const start = fileURLToPath(new URL('../../dist/electron/start.js', import.meta.url))
const watch = new URL('./loop-watch.ts', import.meta.url).href
const time = new URL('./host-time.ts', import.meta.url).href

/** @param now what the host's clock says at its start, epoch ms; this computer's time unless said */
export async function startMeasuredHost(dataDir: string, now = Date.now()): Promise<MeasuredHost> {
  const flags = ['--import', time, '--import', watch]
  const args = [...flags, start, '--data', dataDir, '--port', '0', '--no-window']
  const env = { ...process.env, BENCH_CLOCK_OFFSET_MS: String(now - Date.now()) }
  const child = spawn(process.execPath, args, { stdio: ['ignore', 'pipe', 'inherit', 'ipc'], env })
  const windowUrl = await new Promise<string>((resolve, reject) => {
    let said = ''
    child.stdout?.on('data', (text: Buffer) => {
      said += text.toString()
      const address = /Panelwright is ready at (\S+)/.exec(said)?.[1]
      if (address !== undefined) resolve(address)
    })
    child.once('close', () => reject(new Error(`The program ended: ${said}`)))
  })
  const entered = await fetch(windowUrl, { redirect: 'manual' })
  return {
    origin: new URL(windowUrl).origin,
    cookie: entered.headers.get('set-cookie')?.split(';')[0] ?? '',
    rssPeakMb: () => {
      const kb = /VmHWM:\s+(\d+) kB/.exec(readFileSync(`/proc/${child.pid}/status`, 'utf8'))?.[1]
      return Math.round((Number(kb) * 1_024) / 1e6)
    },
    loopDelay: async () => {
      child.send('how late?')
      const [delay] = (await once(child, 'message')) as [LoopDelay]
      return delay
    },
    end: async () => {
      child.kill('SIGTERM')
      if (child.exitCode === null) await once(child, 'exit')
    },
  }
}
