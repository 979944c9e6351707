/*
 * The host of the endurance run, a process of its own: on a clock that goes so many times as fast as the real one. Arguments: the
 * folder, where the clock begins (epoch milliseconds) and its speed. Says its address, and answers every message with its
 * clock and its memory in megabytes; 'collect' lets V8 find first what nobody holds any more (--expose-gc).
 */
import process from 'node:process'
import { startHost } from '../../electron/host.ts'
import { holdMemory } from '../../electron/hold-memory.ts'
import { PLAIN_HOST } from '../support/plain-host.ts'

holdMemory()
const [dataDir = '', begins = '0', speed = '1'] = process.argv.slice(2)
const started = performance.now()
const clock = (): number => Math.round(Number(begins) + (performance.now() - started) * Number(speed))
const host = await startHost({
  dataDir,
  ...PLAIN_HOST,
  clock,
  tickMs: 30_000 / Number(speed),
})
process.on('message', (asked) => {
  if (asked === 'end') return process.disconnect()
  if (asked === 'collect') globalThis.gc?.()
  const { rss, heapUsed, external } = process.memoryUsage()
  process.send?.({ now: clock(), rssMb: rss / 1e6, heldMb: (heapUsed + external) / 1e6 })
})
// A run that was broken off leaves no host behind.
process.on('disconnect', () => void host.close())
process.send?.({ windowUrl: host.windowUrl })
