/*
 * Loaded into the host before it starts, with --import: answers every message of its parent with how late the host's event loop
 * was since the message before.
 */
import { monitorEventLoopDelay } from 'node:perf_hooks'
import process from 'node:process'

/** Milliseconds. */
export interface LoopDelay {
  readonly p50: number
  readonly p95: number
  readonly max: number
}

const delay = monitorEventLoopDelay({ resolution: 10 })
delay.enable()
process.on('message', () => {
  const [p50, p95] = [delay.percentile(50), delay.percentile(95)].map(toMs)
  process.send?.({ p50, p95, max: toMs(delay.max) } as LoopDelay)
  delay.reset()
})
process.channel?.unref()

const toMs = (nanoseconds: number): number => Math.round(nanoseconds / 1e5) / 10
