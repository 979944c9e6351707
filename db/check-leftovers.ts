import { readdir, stat } from 'node:fs/promises'
import { join, relative, sep } from 'node:path'
import type { Moment } from '../domain/car.ts'
import { note, type CheckFinding } from './check-finding.ts'
import {
  booksFolder,
  broughtInFolder,
  cameFilesFolder,
  photosFolder,
  reportsFolder,
  takingInFolder,
} from './data-paths.ts'
import { isMissing, isSystemError } from './system-error.ts'
import { derivedFolder, incomingFolder } from './photos/photo-files.ts'

/** What the database names, by the names of the files. */
export interface NamedFiles {
  /** Digests of the photos that were received. */
  readonly photos: ReadonlySet<string>
  /** Names of the files of issued reports. */
  readonly reports: ReadonlySet<string>
}

/**
 * Files that nothing refers to: what a host was receiving or making when it ended, sizes of photos that are gone, files of
 * reports that were not issued after all.
 *
 * @param before files that were written later, epoch milliseconds, may belong to a host at work and are no leftovers
 */
export async function checkLeftovers(
  dataDir: string,
  named: NamedFiles,
  before: Moment,
): Promise<readonly CheckFinding[]> {
  const photos = photosFolder(dataDir)
  const reports = await filesIn(reportsFolder(dataDir))
  const parts = [...reports, ...(await filesIn(broughtInFolder(dataDir)))].filter((path) => isPart(path))
  const halfDone = [
    ...parts,
    ...(await filesIn(incomingFolder(photos))),
    ...(await filesIn(takingInFolder(dataDir))),
    ...(await filesIn(cameFilesFolder(dataDir))),
    ...(await filesIn(booksFolder(dataDir))),
  ]
  const sizes = (await filesIn(derivedFolder(photos))).filter((path) => !named.photos.has(digestOf(path)))
  const unissued = reports.filter((path) => !isPart(path) && !named.reports.has(nameOf(path)))
  const findings = [
    ...halfDone.map((path) => leftover(path, 'was being written when the program ended')),
    ...sizes.map((path) => leftover(path, 'is a size of a photo that is not here')),
    ...unissued.map((path) => ({ path, finding: notIssued(nameOf(path)) })),
  ]
  const old = []
  for (const { path, finding } of findings)
    if (await isOlder(path, before)) old.push(finding(relativeTo(dataDir, path)))
  return old
}

type ToFinding = (path: string) => CheckFinding

const leftover = (path: string, what: string): { readonly path: string; readonly finding: ToFinding } => ({
  path,
  finding: (place) =>
    note(
      `The file ${place} ${what}.`,
      'It takes up room and is of no use.',
      'Nothing needs to be done; mending removes it.',
      { by: 'removing', path: place },
    ),
})

const notIssued =
  (name: string): ToFinding =>
  () =>
    note(
      `The file ${name.slice(0, 12)} of the reports belongs to no issued report.`,
      'The program ended, or the report was refused, while it was being issued.',
      'Nothing needs to be done.',
    )

/** A folder that is not there holds nothing; what has been set aside is no longer looked at. */
async function filesIn(folder: string): Promise<readonly string[]> {
  try {
    const entries = await readdir(folder, { recursive: true, withFileTypes: true })
    return entries
      .filter((entry) => entry.isFile())
      .map(({ parentPath, name }) => join(parentPath, name))
      .filter((path) => !path.split(sep).includes('set-aside'))
      .toSorted()
  } catch (error) {
    if (isSystemError(error) && (error.code === 'ENOENT' || error.code === 'ENOTDIR')) return []
    throw error
  }
}

async function isOlder(path: string, before: Moment): Promise<boolean> {
  try {
    return (await stat(path)).mtimeMs < before
  } catch (error) {
    if (isMissing(error)) return false
    throw error
  }
}

const isPart = (path: string): boolean => path.endsWith('.part')
const nameOf = (path: string): string => path.slice(path.lastIndexOf(sep) + 1)
/** Sizes are called 'DIGEST-SIZE.ENDING'. */
const digestOf = (path: string): string => nameOf(path).slice(0, 64)
/** The same on every system, as it is shown and kept. */
const relativeTo = (dataDir: string, path: string): string => relative(dataDir, path).replaceAll(sep, '/')
