import { readFileSync, rmSync } from 'node:fs'
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import { photosFolder } from '../../../db/data-paths.ts'
import { originalPath, sizePath } from '../../../db/photos/photo-files.ts'
import { writeSetting } from '../../../db/settings.ts'
import { attachmentIdSchema } from '../../../domain/ids.ts'
import { openCheckDesk, type OpenCheckDesk } from '../../../electron/check/check-desk.ts'
import { flipAt } from '../../db/tamper.ts'
import { createTestHost, refusalOf, type TestHost, type TestScreen } from '../../support/host.ts'
import { createTestPhoto } from '../../support/images.ts'
import { manager, welder } from '../../support/workshop.ts'

let host: TestHost
let office: TestScreen
let sha256: string
beforeAll(async () => {
  host = await createTestHost()
  office = await host.openScreen()
  await office.signIn(manager)
  const put = await office.upload(await createTestPhoto({ width: 64, height: 48, color: '#357' }))
  ;({ sha256 } = (await put.json()) as { readonly sha256: string })
  // Asking for a size waits until all of them are made.
  await office.request(`/photos/${sha256}/thumb`)
  const carId = host.workshop.addCar('Larkspur 4', 'C-1')
  const attachmentId = attachmentIdSchema.parse('photo-one')
  const photo = { attachmentId, sha256, taken: null, caption: '', serves: [{ what: 'car' as const }] }
  await office.run('attachPhoto', photo, { carId, by: welder })
})
afterAll(() => host.close())
afterEach(() => {
  if (host.log.length > 0) throw new Error(`The host reported a defect: ${host.log.join('\n')}`)
})

const quiet = { doing: { kind: 'nothing' }, mendable: 0, copiesFolder: null }
const state = () => office.client.check.query()

async function checkAgain() {
  expect(await office.client.startCheck.mutate()).toEqual({ ok: true, value: true })
  await expect.poll(async () => (await state()).doing.kind).toBe('nothing')
  return state()
}

describe('the check in the window', () => {
  test('has not been run at first', async () => {
    expect(await state()).toEqual({ ...quiet, last: null })
  })

  test('runs beside the work and says that all is well', async () => {
    await office.client.startCheck.mutate()
    expect((await state()).doing.kind).toBe('checking')
    expect(await office.client.startCheck.mutate()).toMatchObject({ ok: false, refusal: { code: 'not-now' } })
    // Commands are answered meanwhile.
    await office.run(
      'addNote',
      { text: 'Keys are in the office.' },
      { carId: host.workshop.addCar('L', 'C-2') },
    )
    await expect.poll(async () => (await state()).doing.kind).toBe('nothing')
    expect((await state()).last).toMatchObject({ brokenOff: null, faults: 0, notes: 0, findings: [] })
  })

  test('can be stopped, and what was found before stays', async () => {
    const before = (await state()).last
    await office.client.startCheck.mutate()
    await office.client.stopCheck.mutate()
    expect(await state()).toEqual({ ...quiet, last: before })
  })

  test('finds what is wrong, mends what can be, and keeps the rest in words', async () => {
    const folder = photosFolder(host.workshop.dataDir ?? '')
    const thumb = sizePath(folder, sha256, 'thumb')
    rmSync(thumb)
    host.workshop.db.writer.sqlite.exec(`UPDATE car SET name = 'Another'`)
    const found = await checkAgain()
    expect(found.mendable).toBe(3)
    expect(found.last).toMatchObject({ faults: 2, notes: 1 })

    expect(await office.client.mendChecked.mutate({ from: null })).toEqual({ ok: true, value: true })
    const mended = await state()
    expect(mended.mendable).toBe(0)
    expect(mended.last).toMatchObject({ faults: 0, notes: 0 })
    expect(mended.last?.findings.map((each) => each.mended?.words).toSorted()).toEqual([
      'The sizes were made anew.',
      'The tables were made anew from the journal.',
      'The tables were made anew from the journal.',
    ])
    expect(readFileSync(thumb).length).toBeGreaterThan(0)
    expect((await checkAgain()).last).toMatchObject({ faults: 0, findings: [] })
  })

  test('remembers its last result over a new start, and mends only what it has found itself', async () => {
    const path = originalPath(photosFolder(host.workshop.dataDir ?? ''), sha256)
    flipAt(path, 40)
    const { last } = await checkAgain()
    expect(last?.findings.map(({ what }) => what)).toEqual([
      `The photo ${sha256.slice(0, 12)} is not what was stored: its bytes have changed on the disk. (on C-1)`,
    ])
    const next: OpenCheckDesk = openCheckDesk({
      db: host.workshop.db,
      makeSizes: () => Promise.reject(new Error('nothing is mended')),
      now: () => host.workshop.now,
      log: (line) => {
        throw new Error(line)
      },
    })
    expect(next.state()).toEqual({ ...quiet, last })
    expect(await next.mend(null)).toMatchObject({ ok: false, refusal: { next: 'Run the check first.' } })
    await next.close()
  })

  test('opens without its last result where that is not what was written', async () => {
    const { db, now } = host.workshop
    writeSetting(db, 'lastCheck', '{"at": 1')
    const makeSizes = () => Promise.reject(new Error('nothing is mended'))
    const next = openCheckDesk({ db, makeSizes, now: () => now, log: expect.unreachable })
    expect(next.state()).toEqual({ ...quiet, last: null })
    await next.close()
  })

  test('is told of by no other than a signed-in manager', async () => {
    const floor = await host.openScreen()
    await floor.signIn(welder)
    expect(await refusalOf(floor.client.check.query())).toMatchObject({ code: 'not-allowed' })
  })
})
