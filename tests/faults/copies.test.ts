import { spawn } from 'node:child_process'
import { createHash, randomBytes } from 'node:crypto'
import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import process from 'node:process'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { copyingFolder, photosFolder } from '../../db/data-paths.ts'
import { originalPath } from '../../db/photos/photo-files.ts'
import { isStamp } from '../../electron/copies/copy-paths.ts'
import { findCopies } from '../../electron/copies/find-copies.ts'
import { NO_SECRETS, copyOf, refusedWith, tryCopy, valueOf } from '../support/copies.ts'
import { verifyCopy } from '../../electron/copies/verify-copy.ts'
import { mountSmallDisk, type SmallDisk } from '../support/disks.ts'
import { createWorkshop, type Workshop } from '../support/workshop.ts'

const folder = mkdtempSync(join(tmpdir(), 'copy-faults-'))
const small: SmallDisk | null = mountSmallDisk(8)
const PHOTOS = 24
let workshop: Workshop
beforeAll(() => {
  workshop = createWorkshop({ keptIn: 'folder' })
  for (let at = 0; at < PHOTOS; at++) addPhoto(200_000)
})
afterAll(() => {
  workshop.close()
  small?.remove()
  rmSync(folder, { recursive: true })
})

/** A row and its bytes, which a copy does not look into. */
function addPhoto(size: number): void {
  const bytes = randomBytes(size)
  const sha256 = createHash('sha256').update(bytes).digest('hex')
  const path = originalPath(photosFolder(workshop.dataDir!), sha256)
  mkdirSync(dirname(path), { recursive: true })
  writeFileSync(path, bytes)
  workshop.db.writer.sqlite
    .prepare(
      `INSERT INTO photo (sha256, bytes, width, height, type, received) VALUES (?, ?, 1, 1, 'jpeg', '2026-11-23T07:00:00.000Z')`,
    )
    .run(sha256, size)
}

/** Every copy that has its name is read to its end. */
async function requireSound(target: string): Promise<number> {
  const [found] = await findCopies(target)
  if (found === undefined) return 0
  for (const { stamp } of found.copies) {
    const job = { dataDir: workshop.dataDir!, store: found.store, stamp, secrets: NO_SECRETS }
    expect(valueOf(await verifyCopy(job)).lost).toEqual([])
  }
  return found.copies.length
}

const namesBelow = (path: string): readonly string[] =>
  existsSync(path) ? (readdirSync(path, { recursive: true }) as string[]) : []

describe('a copy that is killed while it is made', () => {
  const script = fileURLToPath(new URL('../../electron/cli/backup.ts', import.meta.url))
  const target = join(folder, 'killed')
  const isCopying = () => existsSync(join(copyingFolder(workshop.dataDir!), 'workshop.db'))
  const hasFiles = () => namesBelow(target).some((name) => /files.[0-9a-f]{2}.[0-9a-f]{64}$/.test(name))
  const isNaming = () => namesBelow(target).some((name) => name.endsWith('Z.part'))

  /** Looks at every turn of the event loop, and ends the command at once when it has come that far. */
  async function killWhen(hasCome: () => boolean): Promise<NodeJS.Signals | null> {
    const backup = spawn(process.execPath, [script, '--data', workshop.dataDir!, '--out', target])
    const ended = new Promise<NodeJS.Signals | null>((resolve) =>
      backup.once('exit', (_code, signal) => resolve(signal)),
    )
    const timer = setInterval(() => {
      if (hasCome()) backup.kill('SIGKILL')
    }, 0)
    const signal = await ended
    clearInterval(timer)
    return signal
  }

  test.each([
    ['while the records are copied', isCopying],
    ['between two photos', hasFiles],
    ['before it has its name', isNaming],
  ])('%s leaves none that passes for whole, and the next is', async (_when, hasCome) => {
    rmSync(target, { recursive: true, force: true })
    expect(await killWhen(hasCome)).toBe('SIGKILL')
    expect(await requireSound(target)).toBe(0)
    const made = await copyOf({ dataDir: workshop.dataDir!, folder: target, now: Date.now() })
    expect(made.head).toMatchObject({ isWhole: true, content: { photos: PHOTOS } })
    expect(await requireSound(target)).toBe(1)
    // Nothing that was begun is left, at the copies or in the data folder.
    expect(namesBelow(target).filter((name) => name.endsWith('.part'))).toEqual([])
    expect(existsSync(copyingFolder(workshop.dataDir!))).toBe(false)
  })
})

describe.skipIf(small === null)('a disk for copies that is full', () => {
  test('takes none that is not whole, keeps the earlier one, and with room again the next is whole', async () => {
    const target = small!.folder
    const asked = { dataDir: workshop.dataDir!, folder: target }
    await copyOf({ ...asked, now: Date.now() - 20_000 })
    for (let at = 0; at < 4; at++) addPhoto(200_000)
    small!.fill()
    expect(refusedWith(await tryCopy({ ...asked, now: Date.now() - 10_000 }))).toMatch(
      /The disk with the copies in .* is full.*Earlier copies are as they were/,
    )
    expect(await requireSound(target)).toBe(1)
    expect(namesBelow(target).filter((name) => name.endsWith('.part'))).toEqual([])
    small!.free()
    const made = await copyOf({ ...asked, now: Date.now() })
    expect(made.files).toMatchObject({ written: 4, lost: [] })
    expect(await requireSound(target)).toBe(2)
    expect(namesBelow(target).filter((name) => isStamp(name.split('/').at(-1) ?? ''))).toHaveLength(2)
  })
})
