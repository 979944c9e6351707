import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { inspectPhoto } from '../../../db/photos/inspect-photo.ts'
import { originalPath, sizePath } from '../../../db/photos/photo-files.ts'
import { openPhotoStore } from '../../../db/photos/photo-store.ts'
import {
  createImagePool,
  type ImagePool,
  type ImagePoolOptions,
} from '../../../electron/workers/image-pool.ts'
import { createPngHeader, createTestPhoto } from '../../support/images.ts'

let folder: string
let pools: ImagePool[]
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'panelwright-pool-'))
  pools = []
})
afterEach(async () => {
  await Promise.all(pools.map((pool) => pool.close()))
  await rm(folder, { recursive: true })
})

function openPool(options: Partial<ImagePoolOptions> = {}): ImagePool {
  const pool = createImagePool({ folder, ...options })
  pools.push(pool)
  return pool
}

const failingWorker = new URL('./failing-worker.ts', import.meta.url)
const photo = { width: 400, height: 300, color: '#a53', taken: '2026:11:05 14:03:22' }

describe('the image pool', () => {
  it('answers what the check and the sizes answer, from its worker', async () => {
    const pool = openPool()
    const store = await openPhotoStore(folder, { inspect: pool.inspect })
    if (!store.ok) throw new Error(store.problem.message)
    const added = await store.value.add(await createTestPhoto(photo))
    if (!added.ok) throw new Error(added.problem.message)
    const { sha256, facts } = added.value
    expect(await inspectPhoto(originalPath(folder, sha256))).toEqual({ ok: true, value: facts })
    expect(await pool.makeSizes(sha256)).toEqual({ ok: true, value: true })
    expect((await readFile(sizePath(folder, sha256, 'thumb'))).length).toBeGreaterThan(100)
  })

  it('hands on refusals as they are', async () => {
    const path = join(folder, 'flood.png')
    await writeFile(path, createPngHeader(30_000, 30_000))
    expect(await openPool().inspect(path)).toMatchObject({ ok: false, problem: { code: 'too-many-pixels' } })
  })

  it('reads HEIC in its worker', async () => {
    const path = new URL('../../fixtures/sample.heic', import.meta.url)
    expect(await openPool().inspect(fileURLToPath(path))).toMatchObject({
      ok: true,
      value: { type: 'heic', width: 320 },
    })
  })

  it('answers each of many jobs with its own answer, with one worker and with two', async () => {
    for (const workerCount of [1, 2]) {
      const pool = openPool({ workerUrl: failingWorker, workerCount })
      const paths = Array.from({ length: 40 }, (_, index) => `photo-${index}`)
      expect(await Promise.all(paths.map((path) => pool.inspect(path)))).toEqual(
        paths.map((path) => ({ ok: true, value: path })),
      )
    }
  })

  it.each([
    ['throw', 'a defect in the decoder'],
    ['exit', 'the worker ended with code 7'],
    ['exhaust', 'memory limit'],
    ['hang', 'it took longer than 2 s'],
  ])('when its worker fails by %s, fails that photo alone, says why and goes on', async (way, reason) => {
    const ends: string[] = []
    const pool = openPool({
      workerUrl: failingWorker,
      jobTimeoutMs: way === 'hang' ? 2000 : 60_000,
      onWorkerEnd: (end) => ends.push(end),
    })
    const answers = await Promise.all([pool.inspect('before'), pool.inspect(way), pool.inspect('after')])
    expect(answers[0]).toEqual({ ok: true, value: 'before' })
    expect(answers[1]).toMatchObject({ ok: false, problem: { code: 'worker-failed' } })
    expect(!answers[1].ok && answers[1].problem.message).toContain(reason)
    expect(answers[2]).toEqual({ ok: true, value: 'after' })
    expect(ends).toEqual([expect.stringContaining(reason)])
  })

  it('starts a new worker after one that ended for want of work', async () => {
    const pool = openPool({ workerUrl: failingWorker, idleMs: 1 })
    expect(await pool.inspect('first')).toMatchObject({ ok: true })
    await new Promise((resolve) => setTimeout(resolve, 50))
    expect(await pool.inspect('second')).toMatchObject({ ok: true })
  })

  it('tells when work comes in and when all of it is done or lost', async () => {
    const busy: boolean[] = []
    const pool = openPool({ workerUrl: failingWorker, onBusy: (isBusy) => busy.push(isBusy) })
    await Promise.all([pool.inspect('first'), pool.inspect('second')])
    expect(busy).toEqual([true, false])
    const lost = pool.inspect('exit')
    expect(busy).toEqual([true, false, true])
    await lost
    expect(busy).toEqual([true, false, true, false])
  })

  it('answers what still waits when it is closed, and all that comes later', async () => {
    const pool = openPool({ workerUrl: failingWorker })
    const waiting = [pool.inspect('hang'), pool.inspect('next'), pool.makeSizes('ab'.repeat(32))]
    await pool.close()
    const late = await pool.inspect('late')
    for (const answer of [...(await Promise.all(waiting)), late])
      expect(answer).toMatchObject({ ok: false, problem: { code: 'worker-failed' } })
  })
})
