import { rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, beforeEach, expect, test } from 'vitest'
import { originalPath } from '../../../db/photos/photo-files.ts'
import { photosFolder } from '../../../db/data-paths.ts'
import { takeIn } from '../../../electron/whole/take-in.ts'
import { createTestHost, refusalOf, type TestHost, type TestScreen } from '../../support/host.ts'
import { createTestPhoto } from '../../support/images.ts'
import { folderForFile } from '../../support/whole.ts'
import { manager, welder } from '../../support/workshop.ts'

const { folder, remove } = folderForFile()
let host: TestHost
let screen: TestScreen
let sha256: string
beforeAll(async () => {
  host = await createTestHost()
  host.workshop.addCar()
  screen = await host.openScreen()
  const put = await screen.upload(await createTestPhoto({ width: 60, height: 40, color: '#933' }))
  sha256 = ((await put.json()) as { readonly sha256: string }).sha256
})
afterAll(async () => {
  await host.close()
  remove()
})
beforeEach(() => screen.signIn(manager))

const view = () => screen.client.wholeWorkshop.query()

test('a manager saves the whole workshop as one archive, which can be taken in as it is', async () => {
  expect(await view()).toMatchObject({ photos: 1, progress: null })
  const answer = await screen.request('/whole-workshop.zip')
  expect(answer.headers.get('content-disposition')).toBe(
    'attachment; filename="panelwright-brookside-metalwork-2026-11-23.zip"',
  )
  const zip = join(folder, 'whole.zip')
  writeFileSync(zip, Buffer.from(await answer.arrayBuffer()))
  expect((await view()).progress).toMatchObject({ doing: 'finished', bytes: expect.any(Number) })
  expect(await takeIn(zip, join(folder, 'copy'))).toMatchObject({ ok: true, value: { files: 1 } })
})

test('nobody else may', async () => {
  await screen.signIn(welder)
  expect((await screen.request('/whole-workshop.zip')).status).toBe(403)
  expect((await refusalOf(view())).code).toBe('not-allowed')
})

test('who asks for its head alone leaves nothing under way', async () => {
  const answer = await screen.request('/whole-workshop.zip', { method: 'HEAD' })
  expect(answer.headers.get('content-type')).toBe('application/zip')
  await expect.poll(async () => (await view()).progress?.doing).toBe('refused')
})

test('who breaks off the saving stops it', async () => {
  const answer = await screen.request('/whole-workshop.zip')
  await answer.body?.cancel()
  await expect
    .poll(async () => (await view()).progress)
    .toMatchObject({
      doing: 'refused',
      refusal: { message: 'This was stopped; nothing was kept.' },
    })
})

test('why it broke off is told in words, and the file that was begun is no archive', async () => {
  rmSync(originalPath(photosFolder(host.workshop.dataDir!), sha256))
  const answer = await screen.request('/whole-workshop.zip')
  await expect(answer.arrayBuffer()).rejects.toThrow('is gone')
  expect((await view()).progress).toMatchObject({
    doing: 'refused',
    refusal: { message: expect.stringContaining('is gone'), next: expect.stringContaining('Run the check') },
  })
})
