import { mkdir, rename, rm, writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { isSystemError } from '../../db/system-error.ts'

/** Why nothing more can be written to the folder that a command was given; its message says what to do. */
export class OutFolderProblem extends Error {
  override readonly name = 'OutFolderProblem'
}

/** Makes the folder that a command writes to. @throws OutFolderProblem */
export async function makeOutFolder(folder: string): Promise<void> {
  try {
    await mkdir(folder, { recursive: true })
  } catch (error) {
    throw outFolderProblem(error, folder)
  }
}

/**
 * Writes a file whole or not at all, in the place of one of the same name.
 *
 * @returns its path
 * @throws OutFolderProblem
 */
export async function writeOut(folder: string, name: string, bytes: Uint8Array): Promise<string> {
  const path = join(folder, name)
  const temporary = `${path}.part`
  try {
    await writeFile(temporary, bytes, { flush: true })
    await rename(temporary, path)
    return path
  } catch (error) {
    await rm(temporary, { force: true }).catch(() => undefined)
    throw outFolderProblem(error, folder)
  }
}

function outFolderProblem(error: unknown, folder: string): unknown {
  if (!isSystemError(error)) return error
  return new OutFolderProblem(
    error.code === 'ENOSPC' || error.code === 'EDQUOT'
      ? `The disk that ${folder} lies on is full. Make room on it and give the command again; the files that are there are whole.`
      : `${folder} cannot be written to (${error.code}). Check that this account may write there, or name another folder.`,
  )
}
