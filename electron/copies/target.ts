import { constants } from 'node:fs'
import { access, mkdir, realpath, stat, statfs, writeFile } from 'node:fs/promises'
import { join, sep } from 'node:path'
import { isThere } from '../../db/is-there.ts'
import { isMissing } from '../../db/system-error.ts'
import { bytesWords } from '../../domain/text/words.ts'
import { COPIES_FOLDER, filesIn, copiesIn, type CopyStore, workshopFolder } from './copy-paths.ts'
import { bagProblem } from '../bag/bag-problem.ts'

export interface Target {
  readonly store: CopyStore
  /** A disk that fails takes both with it. */
  readonly isSameDisk: boolean
}

/**
 * The folder of a workshop's copies, made where it is not there.
 *
 * @param firstHash of the journal's first line
 * @param isKnown whether copies were made into it before: then a folder without them is a disk that is not attached
 * @throws BagProblem whose words say what to do; errors of the disk
 */
export async function openTarget(
  dataDir: string,
  folder: string,
  { firstHash, isKnown }: { readonly firstHash: string; readonly isKnown: boolean },
): Promise<Target> {
  const isSameDisk = await requireTarget(dataDir, folder)
  const store = { folder: workshopFolder(folder, firstHash) }
  if (isKnown && !(await isThere(store.folder)))
    throw bagProblem(
      'storage',
      `The copies that were made in ${folder} are not there.`,
      'Attach the disk that they lie on, or choose another folder for copies.',
    )
  await mkdir(filesIn(store), { recursive: true })
  await mkdir(copiesIn(store), { recursive: true })
  const readme = join(folder, COPIES_FOLDER, 'README.txt')
  if (!(await isThere(readme))) await writeFile(readme, README)
  return { store, isSameDisk }
}

/** @returns whether it is on the disk of the data folder */
export async function requireTarget(dataDir: string, folder: string): Promise<boolean> {
  const [data, target] = await Promise.all([realpath(dataDir), realpathOf(folder)])
  if (`${target}${sep}`.startsWith(`${data}${sep}`))
    throw bagProblem(
      'bad-input',
      'Copies cannot lie in the data folder itself: they would be lost with it.',
      'Choose a folder on another disk.',
    )
  // Making folders on a disk that may only be read is told as if something were missing.
  await access(target, constants.W_OK)
  const [here, there] = await Promise.all([stat(data), stat(target)])
  return here.dev === there.dev
}

async function realpathOf(folder: string): Promise<string> {
  try {
    return await realpath(folder)
  } catch (error) {
    if (!isMissing(error)) throw error
    throw bagProblem(
      'storage',
      `There is no folder ${folder}.`,
      'Attach its disk, or choose a folder that is there.',
    )
  }
}

/** @throws BagProblem when the disk has less left */
export async function requireRoom(folder: string, bytes: number): Promise<void> {
  const { bavail, bsize } = await statfs(folder)
  if (bytes <= bavail * bsize) return
  throw bagProblem(
    'storage',
    `This needs ${bytesWords(bytes)} on its disk, which has ${bytesWords(bavail * bsize)} left.`,
    'Make room, or choose a folder on another disk. Earlier copies are as they were.',
  )
}

/** What people are warned of. */
export const SAME_DISK =
  'These copies lie on the same disk as the workshop itself: when it fails, both are gone. Choose a folder on another disk.'

const README = `COPIES OF A WORKSHOP

Panelwright made these. Each folder workshop-... holds the copies of one workshop: 'copies' has a folder for each of them, by
the time it was made (UTC), and 'files' the photos and reports that they share; 'erased.json'
names contacts that were erased since, by ids alone. Do not move or change anything in it.

To go on from a copy:   npm run restore -- --from THIS-FOLDER --data NEW-FOLDER
or start Panelwright with an empty data folder and choose 'Restore from a copy'.

Unless they are sealed by a passphrase, copies hold personal data that everybody can read: keep them as you keep the
workshop's own books.
`
