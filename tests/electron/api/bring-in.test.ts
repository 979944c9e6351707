import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { NOTHING_MORE } from '../../../domain/report/file-choices.ts'
import type { CameFile } from '../../../electron/api/bring-in-desk.ts'
import { archiveOf } from '../../support/came-file.ts'
import { carWithEveryKind } from '../../support/car-file.ts'
import { refusalOf, createTestHost, type TestHost, type TestScreen } from '../../support/host.ts'
import { manager, welder } from '../../support/workshop.ts'

let host: TestHost
let screen: TestScreen
let folder: string
let file: Buffer

beforeAll(async () => {
  host = await createTestHost()
  screen = await host.openScreen()
  const filed = await carWithEveryKind()
  folder = mkdtempSync(join(tmpdir(), 'came-file-'))
  file = readFileSync(await archiveOf(filed.workshop, filed.carId, NOTHING_MORE, folder))
  filed.workshop.close()
})

afterAll(async () => {
  await host.close()
  rmSync(folder, { recursive: true })
})

const send = (body: Uint8Array) =>
  screen.request('/came-files', { method: 'PUT', body: new Uint8Array(body) })
const order = (fileId: string, commandId = 'command-bring-in') => ({ fileId, commandId, shellNumber: null })

test('only a manager who is signed in sends and brings in the file of a car', async () => {
  for (const person of [null, welder]) {
    if (person !== null) await screen.signIn(person)
    expect((await send(file)).status).toBe(403)
    const asked = screen.client.bringInCar.mutate(order('0e8a3c1e-8f0f-4a36-9d35-5fb3a3e90f11') as never)
    expect((await refusalOf(asked)).code).toBe('not-allowed')
  }
})

test('what is no file of a car is refused in words, and nothing at all too', async () => {
  await screen.signIn(manager)
  const answer = await send(Buffer.from('shell number;name'))
  expect(answer.status).toBe(422)
  expect(await answer.json()).toMatchObject({ refusal: { code: 'bad-input' } })
  expect((await send(Buffer.alloc(0))).status).toBe(422)
})

test('a car’s file is sent, shown, brought in and dropped, and every screen hears of the car', async () => {
  await screen.signIn(manager)
  const came = (await (await send(file)).json()) as CameFile
  expect(came.preview).toMatchObject({ from: 'Brookside Metalwork', refusal: null })
  const { fileId } = came
  expect(await screen.client.bringInProgress.query({ fileId })).toEqual({ done: 0, of: 3 })
  const brought = await screen.client.bringInCar.mutate(order(fileId) as never)
  if (!brought.ok) throw new Error(brought.refusal.message)
  expect(await screen.client.bringInCar.mutate(order(fileId) as never)).toEqual(brought)
  const { cars } = await screen.client.cars.query()
  expect(cars.map(({ name, cameFrom }) => [name, cameFrom])).toEqual([
    ['Larkspur Four', 'Brookside Metalwork'],
  ])
  await screen.client.dropCameFile.mutate({ fileId })
  expect(await screen.client.bringInProgress.query({ fileId })).toBeNull()
  expect(await screen.client.bringInCar.mutate(order(fileId, 'command-later') as never)).toMatchObject({
    ok: false,
    refusal: { code: 'unknown' },
  })
})
