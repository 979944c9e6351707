import { resolve } from 'node:path'
import process from 'node:process'
import { plural } from '../../domain/text/words.ts'
import { takeIn } from '../whole/take-in.ts'
import { dataFolder, needed, readFlags, runCommand, stopSignal } from './command-line.ts'
import { refusalWords } from '../../domain/refusal.ts'

const usage = `npm run takein -- --from PATH --data DIR
  --from PATH  the folder that takeout wrote, or the .zip from the window
  --data DIR   the data folder to make: empty, or not there yet`

await runCommand(usage, bringBack)

/** Makes a data folder from a whole workshop that was taken out. */
async function bringBack(argv: readonly string[]): Promise<number> {
  const flags = readFlags(argv, ['from', 'data'])
  const from = resolve(needed(flags.from, '--from'))
  const dataDir = dataFolder(needed(flags.data, '--data'))
  const signal = stopSignal()
  const taken = await takeIn(from, dataDir, {
    signal,
    onStep: (words) => console.error(words),
  })
  if (!taken.ok) {
    console.error(refusalWords(taken.refusal))
    // What was being verified when it was stopped would go on to its end.
    if (signal.aborted) process.exit(1)
    return 1
  }
  const { name, facts, files } = taken.value
  console.log(
    `${name} is in ${dataDir}: ${plural('fact', facts)}, ${plural('photo or report', files, 'photos and reports')}; all is well.`,
  )
  console.log(
    'Codes do not leave the computer that they were set on: open Panelwright’s own window on this folder,',
  )
  console.log('where a manager chooses a new code and then sets those of the others.')
  return 0
}
