import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { CarBook } from '../../../domain/report/car-book-shapes.ts'
import { createPrinter } from '../../../electron/print/printer.ts'
import { beside, photographedBook, placeOfBook, storePhotos } from '../../support/printed-book.ts'

let folder: string
let photosFolder: string
let digests: readonly string[]

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'panelwright-book-'))
  photosFolder = join(folder, 'photos')
  digests = await storePhotos(photosFolder)
})
afterAll(() => rm(folder, { recursive: true }))

const story = (): CarBook => photographedBook(digests)
const place = (name: string): Promise<string> => placeOfBook(folder, name)

describe('the printer', () => {
  it('writes a book in its worker, tells how far it is, and stops it or one that waits', async () => {
    const printer = createPrinter({ photosFolder })
    try {
      const to = await place('worker')
      const told: number[] = []
      const onProgress = ({ photos }: { readonly photos: number }) => void told.push(photos)
      expect(await printer.writeBook(story(), to, { onProgress })).toMatchObject({
        ok: true,
        value: { photos: 5 },
      })
      expect(told).toEqual([1, 2, 3, 4, 5])
      const [first, second] = [new AbortController(), new AbortController()]
      const stopsItself = { signal: first.signal, onProgress: () => first.abort() }
      const [running, waiting] = [
        printer.writeBook(story(), join(folder, 'worker', 'b.pdf'), stopsItself),
        printer.writeBook(story(), join(folder, 'worker', 'c.pdf'), { signal: second.signal }),
      ]
      second.abort()
      for (const book of [waiting, running])
        expect(await book).toMatchObject({ ok: false, refusal: { message: 'The book was stopped.' } })
      expect(await beside(to)).toEqual(['book.pdf'])
    } finally {
      await printer.close()
    }
  })

  it('refuses a book when its worker is lost or it is closed, and clears away what was begun', async () => {
    const to = await place('lost')
    const path = join(folder, 'worker.mjs')
    await writeFile(
      path,
      `import { parentPort } from 'node:worker_threads'
       import { writeFileSync } from 'node:fs'
       parentPort.on('message', ({ to }) => { writeFileSync(to + '.part', 'half'); process.exit(3) })`,
    )
    const printer = createPrinter({ photosFolder, workerUrl: new URL(`file://${path}`) })
    expect(await printer.writeBook(story(), to)).toMatchObject({
      ok: false,
      refusal: { message: 'The book could not be written: the worker ended with code 3.' },
    })
    expect(await beside(to)).toEqual([])
    await printer.close()
    expect(await printer.writeBook(story(), to)).toMatchObject({
      ok: false,
      refusal: { message: 'The book could not be written: the program is closing.' },
    })
  })
})
