import { readFile } from 'node:fs/promises'
import { resolve } from 'node:path'
import type { ListedCopy } from '../../domain/copies/copy-shapes.ts'
import { bytesWords, plural } from '../../domain/text/words.ts'
import { findCopies, type FoundCopies } from '../copies/find-copies.ts'
import { restoreCopy } from '../copies/restore-copy.ts'
import { dataFolder, needed, readFlags, runCommand, stopSignal, UsageProblem } from './command-line.ts'
import { refusalWords } from '../../domain/refusal.ts'

const usage = `npm run restore -- --from DIR --data DIR [--copy STAMP] [--passphrase-file FILE]
  --from DIR     the folder that copies were made into
  --data DIR     the data folder to make: empty, or not there yet
  --copy STAMP   one of them, as 2026-11-28T18-00-05Z; the newest whole one when it is not given
  --passphrase-file FILE  for sealed copies: a text file whose first line is the passphrase`

await runCommand(usage, restore)

/** Makes a data folder from a copy. */
async function restore(argv: readonly string[]): Promise<number> {
  const flags = readFlags(argv, ['from', 'data', 'copy', 'passphrase-file'])
  const from = resolve(needed(flags.from, '--from'))
  const dataDir = dataFolder(needed(flags.data, '--data'))
  const chosen = choose(await findCopies(from), from, flags.copy)
  const passphrase = await readPassphrase(flags['passphrase-file'])
  const restored = await restoreCopy(
    { store: chosen.store, stamp: chosen.copy.stamp, secrets: { passphrase, key: null } },
    dataDir,
    { signal: stopSignal(), onStep: (words) => console.error(words) },
  )
  if (!restored.ok) {
    console.error(refusalWords(restored.refusal))
    return 1
  }
  const { name, number, files, made, lost, notes } = restored.value
  console.log(
    `${name} is in ${dataDir} as it was copied on ${new Date(made).toISOString()}: ${plural('line', number)} of the journal, ${plural('photo or report', files, 'photos and reports')}; all is well.`,
  )
  for (const words of lost) console.error(`The copy did not have this: ${words}`)
  for (const words of notes) console.error(words)
  console.log(
    'Codes and paired devices do not leave their computer: open Panelwright’s own window on this folder,',
  )
  console.log('where a manager chooses a new code, sets those of the others and lets the devices in again.')
  return 0
}

function choose(
  found: readonly FoundCopies[],
  from: string,
  stamp: string | undefined,
): { readonly store: FoundCopies['store']; readonly copy: ListedCopy } {
  const [one, another] = found
  if (one === undefined) throw new UsageProblem(`There are no copies in ${from}.`)
  if (another !== undefined)
    throw new UsageProblem(
      `There are copies of several workshops; give the folder of one as --from:\n${found.map(({ store }) => store.folder).join('\n')}`,
    )
  const copy = one.copies.find((each) => (stamp === undefined ? each.isWhole : each.stamp === stamp))
  if (copy !== undefined) return { store: one.store, copy }
  throw new UsageProblem(`Name one of these with --copy:\n${one.copies.map(listed).join('\n')}`)
}

const listed = ({ stamp, number, bytes, isWhole, isSealed }: ListedCopy): string =>
  `${stamp}  ${plural('line', number)} of the journal, ${bytesWords(bytes)}${isSealed ? ', sealed' : ''}${isWhole ? '' : ', not whole'}`

/** A passphrase on the command line would stand in the list of processes and in the shell's history. */
async function readPassphrase(path: string | undefined): Promise<string | null> {
  if (path === undefined) return null
  try {
    return (await readFile(resolve(path), 'utf8')).split(/\r?\n/)[0] ?? ''
  } catch {
    throw new UsageProblem(`${path} cannot be read.`)
  }
}
