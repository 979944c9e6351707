import { afterAll, beforeAll, expect, test } from 'vitest'
import { createTestHost, type TestHost, type TestScreen } from '../../support/host.ts'
import { manager } from '../../support/workshop.ts'

let host: TestHost
let screen: TestScreen
beforeAll(async () => {
  host = await createTestHost()
  screen = await host.openScreen()
  await screen.signIn(manager)
})
afterAll(() => host.close())

const refusalOf = async (path: string, init: RequestInit = {}) => {
  const answer = await screen.request(path, init)
  const { error } = (await answer.json()) as { error: { data: { refusal: { code: string } | null } } }
  return { status: answer.status, code: error.data.refusal?.code }
}
const post = (body: string, type = 'application/json') => ({
  method: 'POST',
  headers: { 'content-type': type },
  body,
})

test('a call that there is none of is unknown, in words', async () => {
  for (const path of ['/trpc/', '/trpc/toString', '/trpc/cars.pdf'])
    expect((await refusalOf(path)).code, path).toBe('unknown')
  expect(await refusalOf('/trpc/signOut')).toEqual({ status: 405, code: 'unknown' })
  expect(await refusalOf('/trpc/session', post('{}'))).toEqual({ status: 405, code: 'unknown' })
})

test('a call that cannot be read is bad input, in words', async () => {
  expect(await refusalOf('/trpc/signIn', post('{'))).toEqual({ status: 400, code: 'bad-input' })
  expect(await refusalOf('/trpc/car?input=%7B')).toEqual({ status: 400, code: 'bad-input' })
  expect(await refusalOf('/trpc/signIn', post('{}', 'text/plain'))).toEqual({
    status: 415,
    code: 'bad-input',
  })
})

test('a defect has a code and words of its own, and stands in the log', async () => {
  host.workshop.db.writer.sqlite.exec('ALTER TABLE contact RENAME TO elsewhere')
  expect(await refusalOf('/trpc/shopFloor')).toEqual({ status: 500, code: 'storage' })
  expect(host.log.join()).toContain('no such table')
})
