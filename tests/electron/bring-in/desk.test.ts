import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { cameFilesFolder } from '../../../db/data-paths.ts'
import { readAllCars } from '../../../db/reads.ts'
import { NOTHING_MORE } from '../../../domain/report/file-choices.ts'
import { openBringInDesk } from '../../../electron/bring-in/bring-in-desk.ts'
import { archiveOf, createReceiver, refusalOf, sure, type Receiver } from '../../support/came-file.ts'
import { createWorkshop } from '../../support/workshop.ts'

let folder: string
let archive: string
let here: Receiver

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'came-file-'))
  const there = createWorkshop({ keptIn: 'folder' })
  archive = await archiveOf(there, there.addCar(), NOTHING_MORE, folder)
  there.close()
  here = await createReceiver()
})

afterAll(async () => {
  await here.close()
  rmSync(folder, { recursive: true })
})

const received = () => readdirSync(cameFilesFolder(here.workshop.dataDir ?? ''))

test('one file is kept at a time: the next takes its place', async () => {
  const first = sure(await here.receive(archive))
  const second = sure(await here.receive(archive))
  expect(received()).toEqual([`${second.fileId}.zip`])
  expect(refusalOf(await here.bringIn(first.fileId)).code).toBe('unknown')
  await here.desk.drop(second.fileId)
  expect(received()).toEqual([])
})

test('two words for one file at once bring it in once, and another file waits meanwhile', async () => {
  const { fileId } = sure(await here.receive(archive))
  const both = [here.bringIn(fileId), here.bringIn(fileId)]
  expect(refusalOf(await here.receive(archive)).message).toContain('Another car is being brought in')
  const [one, other] = await Promise.all(both)
  expect(sure(one!)).toEqual(sure(other!))
  expect(readAllCars(here.workshop.db)).toHaveLength(1)
})

test('an upload that breaks off leaves nothing, and neither does one that is too large', async () => {
  async function* brokenOff() {
    yield Buffer.from('PK')
    throw new Error('The cable was pulled.')
  }
  expect(refusalOf(await here.desk.receive(brokenOff())).message).toBe('The file did not arrive whole.')
  const log = () => undefined
  const { db } = here.workshop
  const limits = { mostFiles: 10, mostBytes: 100 }
  const makeSizes = async () => ({ ok: true as const, value: true as const })
  const small = await openBringInDesk({ db, photos: here.photos, makeSizes, now: () => 0, log, limits })
  async function* endless() {
    for (;;) yield Buffer.alloc(60)
  }
  expect(refusalOf(await small.receive(endless())).message).toContain('larger than the file of any car')
  expect(received()).toEqual([])
  await small.close()
})

test('what a killed host was receiving is cleared when the desk is opened', async () => {
  const path = cameFilesFolder(here.workshop.dataDir ?? '')
  mkdirSync(path, { recursive: true })
  writeFileSync(join(path, 'half.zip'), 'PK')
  const { db } = here.workshop
  const makeSizes = async () => ({ ok: true as const, value: true as const })
  const desk = await openBringInDesk({
    db,
    photos: here.photos,
    makeSizes,
    now: () => 0,
    log: () => undefined,
  })
  expect(existsSync(join(path, 'half.zip'))).toBe(false)
  await desk.close()
})
