import { rmSync } from 'node:fs'
import { type OutgoingHttpHeaders, request } from 'node:http'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { startHost } from '../../electron/host.ts'
import { PLAIN_HOST } from '../support/plain-host.ts'
import { codes, createWorkshop, manager } from '../support/workshop.ts'

const log: string[] = []
let dataDir: string
let host: Awaited<ReturnType<typeof startHost>>
let cookie: string
let origin: string
beforeAll(async () => {
  const workshop = createWorkshop({ keptIn: 'folder' })
  dataDir = workshop.dataDir ?? ''
  workshop.db.close()
  const clock = () => workshop.now
  host = await startHost({ dataDir, ...PLAIN_HOST, clock, log: (line) => log.push(line) })
  origin = new URL(host.url).origin
  const entered = await fetch(host.windowUrl, { redirect: 'manual' })
  cookie = entered.headers.get('set-cookie')?.split(';')[0] ?? ''
  const headers = { cookie, origin, 'content-type': 'application/json' }
  const body = JSON.stringify({ personId: manager, code: codes[manager] })
  await fetch(`${host.url}trpc/signIn`, { method: 'POST', headers, body })
})
afterAll(async () => {
  await host.close()
  rmSync(dataDir, { recursive: true, force: true })
})

/** Sends the beginning and breaks the connection, when the host has had time to look at it. */
async function breakOff(method: string, path: string, headers: OutgoingHttpHeaders): Promise<void> {
  const asked = request(new URL(path, host.url), { method, agent: false, headers: { origin, ...headers } })
  const closed = new Promise<void>((resolve) => asked.on('error', () => {}).once('close', () => resolve()))
  await new Promise<void>((sent) => asked.write('{"', () => sent()))
  await (await fetch(host.url, { headers: { cookie } })).bytes()
  asked.destroy()
  await closed
}

const form = { 'content-type': 'application/x-www-form-urlencoded' }
const json = { 'content-type': 'application/json' }

test.each([
  ['POST', '/pair', 'a stranger', form],
  ['POST', '/trpc/signIn', 'a paired device', json],
  ['PUT', '/photos', 'a paired device', {}],
  ['PUT', '/came-files', 'a paired device', {}],
  ['PUT', '/whole-workshop', 'a paired device', {}],
] as const)('%s %s that is broken off by %s is no defect', async (method, path, who, type) => {
  const known = who === 'a stranger' ? {} : { cookie }
  for (const length of [{ 'content-length': 1_000 }, { 'transfer-encoding': 'chunked' }])
    await breakOff(method, path, { ...type, ...known, ...length })
  // Asked and answered after them.
  for (let each = 0; each < 20; each += 1) await (await fetch(host.url, { headers: { cookie } })).bytes()
  expect(log.splice(0)).toEqual([])
})
