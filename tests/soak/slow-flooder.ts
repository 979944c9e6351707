/*
 * A process of its own, so that its files are not the host's: floods as its argument says, tells after each wave how many it
 * holds and goes on when it is told to, and ends with the figures.
 */
import { once } from 'node:events'
import process from 'node:process'
import { floodSlowly, type SlowFlood } from './slow-flood.ts'

const flood = JSON.parse(process.argv[2] ?? '') as SlowFlood
const figures = await floodSlowly(flood, async (held) => {
  process.send?.({ held })
  await once(process, 'message')
})
process.send?.({ figures })
process.disconnect()
