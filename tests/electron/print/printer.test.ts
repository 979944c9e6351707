import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { planSheet } from '../../../domain/plan/plan-sheet.ts'
import { createPrinter, type Printer, type PrinterOptions } from '../../../electron/print/printer.ts'
import { createPhotoLoader } from '../../../electron/print/load-report-photo.ts'
import { inspectPhoto } from '../../../db/photos/inspect-photo.ts'
import { openPhotoStore } from '../../../db/photos/photo-store.ts'
import { makeSizes } from '../../../db/photos/sizes.ts'
import { buildCar } from '../../support/car-builder.ts'
import { createTestPhoto } from '../../support/images.ts'
import { planAt, planOf, plannedWork, planTelling, wren } from '../../support/planned.ts'
import { reportOn } from '../../support/owner-report.ts'

let folder: string
let printer: Printer | null = null

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'panelwright-printer-'))
})
afterEach(async () => {
  await printer?.close()
  printer = null
  await rm(folder, { recursive: true })
})

const start = (more: Partial<PrinterOptions> = {}): Printer => {
  printer = createPrinter({ photosFolder: folder, ...more })
  return printer
}

/** A worker made of a few lines, for what the real one never does. */
const workerOf = async (source: string): Promise<URL> => {
  const path = join(folder, 'worker.mjs')
  await writeFile(path, source)
  return pathToFileURL(path)
}

const week = reportOn(buildCar().repair('Boot floor'))
const draft = { kind: 'draft' } as const

describe('the printer', () => {
  it('prints one report after the other in its worker', async () => {
    const { print } = start()
    const pdfs = await Promise.all([
      print(week, draft),
      print(week, { kind: 'issued', head: 'a'.repeat(64) }),
    ])
    for (const pdf of pdfs) expect(Buffer.from(pdf).subarray(0, 8).toString()).toBe('%PDF-1.7')
  })

  it('says why a report could not be printed, and prints the next one', async () => {
    const bad = { ...week, sections: [{ heading: 'Bad', blocks: [null as never] }] }
    const { print } = start()
    await expect(print(bad, draft)).rejects.toThrow(/^The report could not be printed: .+ Try again\.$/)
    expect((await print(week, draft)).length).toBeGreaterThan(1000)
  })

  it('prints a plan in the same worker', async () => {
    const sheet = planSheet({
      plan: planOf({ work: [plannedWork()] }),
      of: { kind: 'person', personId: wren },
      telling: planTelling(),
      workshop: 'Harrow Lane',
      name: 'Wren',
      takenAt: null,
      now: planAt('2026-11-26', '07:00'),
    })
    const { printPlan } = start()
    expect(
      Buffer.from(await printPlan(sheet))
        .subarray(0, 8)
        .toString(),
    ).toBe('%PDF-1.7')
    await expect(printPlan({ ...sheet, weeks: [null as never] })).rejects.toThrow(
      /^The plan could not be printed: /,
    )
  })

  it('starts anew after its worker has ended in the middle of a report', async () => {
    const { print } = start({ workerUrl: await workerOf('process.exit(3)') })
    await expect(print(week, draft)).rejects.toThrow('the worker ended with code 3')
    await expect(print(week, draft)).rejects.toThrow('the worker ended with code 3')
  })

  it('gives up a report that takes too long', async () => {
    const endless = `import { parentPort } from 'node:worker_threads'; parentPort.on('message', () => {})`
    const { print } = start({ workerUrl: await workerOf(endless), jobTimeoutMs: 50 })
    await expect(print(week, draft)).rejects.toThrow('it took longer than 0.05 s')
  })

  it('answers what waits when it is closed, and takes no more', async () => {
    const endless = `import { parentPort } from 'node:worker_threads'; parentPort.on('message', () => {})`
    const { print, close } = start({ workerUrl: await workerOf(endless) })
    const waiting = [print(week, draft), print(week, draft)].map((each) =>
      each.catch((error: Error) => error.message),
    )
    await close()
    const closing = 'The report could not be printed: the program is closing. Try again.'
    expect(await Promise.all(waiting)).toEqual([closing, closing])
    await expect(print(week, draft)).rejects.toThrow(closing)
  })
})

describe('photos of a report', () => {
  it('come in report size, made in memory where the folder has none, and are null when they are gone', async () => {
    const store = await openPhotoStore(folder, { inspect: inspectPhoto })
    if (!store.ok) throw new Error(store.problem.message)
    const photo = await createTestPhoto({ width: 1600, height: 1200, color: '#446' })
    const added = await store.value.add(photo)
    if (!added.ok) throw new Error(added.problem.message)
    const load = createPhotoLoader(folder)
    const rendered = await load(added.value.sha256)
    await makeSizes(folder, added.value.sha256)
    const stored = await load(added.value.sha256)
    expect(rendered?.subarray(0, 2).toString('hex')).toBe('ffd8')
    expect(stored?.equals(rendered ?? Buffer.alloc(0))).toBe(true)
    expect(await load('0'.repeat(64))).toBeNull()
  })
})
