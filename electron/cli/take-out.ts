import { join, resolve } from 'node:path'
import { bytesWords, plural } from '../../domain/text/words.ts'
import { writeBagFolder } from '../bag/write-bag.ts'
import { openWholeWorkshop } from '../whole/whole-bag.ts'
import { dataFolder, needed, readFlags, runCommand, stopSignal } from './command-line.ts'
import { refusalWords } from '../../domain/refusal.ts'

const usage = `npm run takeout -- [--data DIR] --out DIR
  --data DIR  the data folder; also while Panelwright is running on it
  --out DIR   where the folder with the whole workshop goes (made when it is not there)`

const FILES_BETWEEN_WORDS = 500

await runCommand(usage, takeOut)

/** Writes the whole workshop as a bag, in a new folder below the one that is named. */
async function takeOut(argv: readonly string[]): Promise<number> {
  const flags = readFlags(argv, ['data', 'out'])
  const out = resolve(needed(flags.out, '--out'))
  const { name, bagName, bag, files: all, close } = openWholeWorkshop(dataFolder(flags.data), Date.now())
  try {
    const to = join(out, bagName)
    const onProgress = ({ files }: { readonly files: number }) => {
      if (files % FILES_BETWEEN_WORDS === 0) console.error(`${files} of ${plural('file', all)} written.`)
    }
    const written = await writeBagFolder(bag, to, { signal: stopSignal(), onProgress })
    if (!written.ok) {
      console.error(refusalWords(written.refusal))
      return 1
    }
    const { files, bytes } = written.value
    console.log(`${name}: ${plural('file', files)}, ${bytesWords(bytes)}, in ${to}.`)
    console.log('It holds personal data: keep it as you keep the workshop’s own books.')
    return 0
  } finally {
    close()
  }
}
