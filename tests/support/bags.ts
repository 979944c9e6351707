import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { createWriteStream, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join, relative } from 'node:path'
import { Readable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { describe, onTestFinished } from 'vitest'
import type { BagEntry, BagToWrite } from '../../electron/bag/bag-shapes.ts'

const hasTools = ['sha256sum', 'unzip', 'python3'].every(
  (tool) => spawnSync(tool, ['--help']).error === undefined,
)
if (!hasTools)
  console.warn(
    'THE BAG TESTS BY FOREIGN TOOLS WERE NOT RUN: install coreutils, unzip and python3, and run again.',
  )

/** `describe`, skipped loudly where sha256sum, unzip or python3 are not installed. */
export const describeBagTools = hasTools ? describe : describe.skip

export const BAG_LIMITS = { mostFiles: 2_000, mostBytes: 64 * 1024 ** 2 }

/** A folder for the test that runs. */
export function emptyFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'panelwright-bag-'))
  onTestFinished(() => rmSync(folder, { recursive: true }))
  return folder
}

/** @throws with what the tool said when it is not content */
export function runTool(tool: string, args: readonly string[], cwd: string): string {
  const { status, stdout, stderr } = spawnSync(tool, args, { cwd, encoding: 'utf8' })
  if (status !== 0) throw new Error(`${tool} ${args.join(' ')}: ${stdout}${stderr}`)
  return stdout
}

export function entry(path: string, content: string | Uint8Array): BagEntry {
  return { path, open: () => Readable.from([Buffer.from(content)]) }
}

export const smallBag: BagToWrite = {
  info: [['Source-Organization', 'Larkspur\nBodies']],
  entries: [entry('README.txt', 'Read me'), entry('photos/a.jpg', Buffer.alloc(200_000, 7))],
}

export async function save(stream: Readable, path: string): Promise<string> {
  await pipeline(stream, createWriteStream(path))
  return path
}

/** Paths of all files below a folder, sorted. */
export function filesBelow(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map((name) => join(folder, name))
    .filter((path) => statSync(path).isFile())
    .map((path) => relative(folder, path).replaceAll('\\', '/'))
    .toSorted()
}

export function sha256Of(path: string): string {
  return createHash('sha256').update(readFileSync(path)).digest('hex')
}
