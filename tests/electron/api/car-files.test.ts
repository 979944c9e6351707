import { randomUUID } from 'node:crypto'
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { get, type IncomingMessage } from 'node:http'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { booksFolder, photosFolder } from '../../../db/data-paths.ts'
import { originalPath } from '../../../db/photos/photo-files.ts'
import { CAR_FILE_ENDING, CAR_FILE_TYPE, isCarFileName } from '../../../domain/report/car-file-name.ts'
import { readBag } from '../../../electron/bag/read-bag.ts'
import { listen, type Listening } from '../../../electron/listen.ts'
import { BAG_LIMITS } from '../../support/bags.ts'
import { carWithEveryKind, type FiledCar } from '../../support/car-file.ts'
import { createTestHost, type TestHost, type TestScreen } from '../../support/host.ts'
import { manager, painter } from '../../support/workshop.ts'

let host: TestHost
let filed: FiledCar
let screen: TestScreen
let listening: Listening
let folder: string
beforeAll(async () => {
  host = await createTestHost()
  filed = await carWithEveryKind(host.workshop)
  screen = await host.openScreen()
  await screen.signIn(manager)
  listening = await listen(host.handler, 0)
  folder = mkdtempSync(join(tmpdir(), 'car-files-'))
})
afterAll(async () => {
  await listening.close()
  await host.close()
  rmSync(folder, { recursive: true })
})

const pathOf = (ending: string, query = '') =>
  `/car-files/${filed.carId}.${ending}?watch=${randomUUID()}${query}`
const watchOf = (path: string) => new URL(path, 'http://x').searchParams.get('watch')!
const progressOf = (path: string) => screen.client.carFileProgress.query({ watch: watchOf(path) })

describe('the file of a car from the window', () => {
  test('is an archive that verifies, and says when it is finished', async () => {
    const path = pathOf('zip')
    expect(await progressOf(path)).toBeNull()
    const answer = await screen.request(path)
    expect(answer.headers.get('content-type')).toBe('application/zip')
    expect(answer.headers.get('content-disposition')).toBe('attachment; filename="car-S-101.zip"')
    const bytes = Buffer.from(await answer.arrayBuffer())
    writeFileSync(join(folder, 'a.zip'), bytes)
    const bag = await readBag(join(folder, 'a.zip'), BAG_LIMITS)
    expect(bag).toMatchObject({ ok: true })
    if (!bag.ok) return
    expect(await bag.value.readText('people.json', 10_000)).toMatchObject({ ok: true })
    expect(bag.value.files.get('book.pdf')?.bytes).toBeGreaterThan(20_000)
    await bag.value.close()
    expect(await progressOf(path)).toEqual({ doing: 'finished', bytes: bytes.byteLength })
  })

  test('is the same archive under the ending that opens in Panelwright', async () => {
    const answer = await screen.request(pathOf('panelcar'))
    expect(answer.headers.get('content-type')).toBe(CAR_FILE_TYPE)
    const disposition = answer.headers.get('content-disposition')
    expect(disposition).toBe(`attachment; filename="car-S-101${CAR_FILE_ENDING}"`)
    const path = join(folder, `c${CAR_FILE_ENDING}`)
    writeFileSync(path, Buffer.from(await answer.arrayBuffer()))
    expect(isCarFileName(path)).toBe(true)
    const bag = await readBag(path, BAG_LIMITS)
    if (!bag.ok) throw new Error(bag.refusal.message)
    expect(bag.value.files.has('journal.jsonl')).toBe(true)
    await bag.value.close()
  })

  test('holds what is ticked, and the book alone can be had', async () => {
    const answer = await screen.request(pathOf('zip', '&contacts=1'))
    writeFileSync(join(folder, 'b.zip'), Buffer.from(await answer.arrayBuffer()))
    const bag = await readBag(join(folder, 'b.zip'), BAG_LIMITS)
    if (!bag.ok) throw new Error(bag.refusal.message)
    const people = await bag.value.readText('people.json', 10_000)
    await bag.value.close()
    expect(people).toMatchObject({ ok: true, value: expect.stringContaining('okafor@example.org') })
    const book = await screen.request(pathOf('pdf'))
    expect(book.headers.get('content-disposition')).toBe('attachment; filename="car-S-101.pdf"')
    expect(Buffer.from(await book.arrayBuffer()).toString('latin1')).toMatch(/^%PDF-1\.7[^]*%%EOF\s*$/)
    // Nothing stays of books that were handed out.
    await expect.poll(() => readdirSync(booksFolder(host.workshop.dataDir!))).toEqual([])
  })

  test('is for managers who are signed in, and for cars that are there', async () => {
    const other = await host.openScreen()
    expect((await other.request(pathOf('zip'))).status).toBe(403)
    await other.signIn(painter)
    expect((await other.request(pathOf('pdf'))).status).toBe(403)
    const unknown = `/car-files/car-unknown.zip?watch=${randomUUID()}`
    expect((await screen.request(unknown)).status).toBe(422)
    expect(await progressOf(unknown)).toMatchObject({ doing: 'refused', refusal: { code: 'unknown' } })
    for (const query of ['', '?watch=1', `?watch=${randomUUID()}&prices=yes`, `?watch=${randomUUID()}&all=1`])
      expect((await screen.request(`/car-files/${filed.carId}.zip${query}`)).status).toBe(404)
  })
})

/** Asks over a real connection, as a browser does. */
function ask(path: string): Promise<IncomingMessage> {
  const headers = { cookie: screen.cookie }
  const [hostname, port] = listening.authority.split(':')
  return new Promise((resolve, reject) => {
    get({ hostname, port, path, headers }, resolve).on('error', reject)
  })
}

/** @throws when the connection breaks before the end */
async function readAll(answer: AsyncIterable<Buffer>): Promise<Buffer> {
  const chunks: Buffer[] = []
  for await (const chunk of answer) chunks.push(chunk)
  return Buffer.concat(chunks)
}

describe('a file that cannot be finished is no file:', () => {
  test('one that is whole comes to its end over a real connection', async () => {
    const answer = await ask(pathOf('zip'))
    expect((await readAll(answer)).subarray(0, 2).toString()).toBe('PK')
  })

  test('an original that was changed breaks the connection, and the reason is there to be read', async () => {
    const place = originalPath(photosFolder(host.workshop.dataDir!), filed.photos[0]!)
    const bytes = readFileSync(place)
    writeFileSync(place, Buffer.concat([bytes, Buffer.from('x')]))
    const path = pathOf('zip')
    await expect(ask(path).then(readAll)).rejects.toThrow('aborted')
    writeFileSync(place, bytes)
    await expect
      .poll(() => progressOf(path))
      .toMatchObject({
        doing: 'refused',
        refusal: { message: expect.stringContaining('no longer what was') },
      })
  })

  test('a missing original is refused before anything is sent', async () => {
    const place = originalPath(photosFolder(host.workshop.dataDir!), filed.photos[0]!)
    const bytes = readFileSync(place)
    rmSync(place)
    const path = pathOf('zip')
    const answer = await screen.request(path)
    writeFileSync(place, bytes)
    expect(answer.status).toBe(422)
    expect(await progressOf(path)).toMatchObject({ doing: 'refused', refusal: { code: 'storage' } })
  })

  test('it can be stopped', async () => {
    const path = pathOf('zip')
    const answer = await ask(path)
    await screen.client.stopCarFile.mutate({ watch: watchOf(path) })
    await expect(readAll(answer)).rejects.toThrow('aborted')
    expect(await progressOf(path)).toMatchObject({ doing: 'refused', refusal: { code: 'not-now' } })
  })

  test('a screen that goes away ends it', async () => {
    const path = pathOf('zip')
    const answer = await ask(path)
    answer.destroy()
    await expect
      .poll(() => progressOf(path))
      .toMatchObject({ doing: 'refused', refusal: { code: 'not-now' } })
  })
})
