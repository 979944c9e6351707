import { readdirSync, readFileSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { expect, onTestFinished, test } from 'vitest'
import { logsFolder } from '../../db/data-paths.ts'
import { startHost } from '../../electron/host.ts'
import { PLAIN_HOST } from '../support/plain-host.ts'
import { createWorkshop, manager, welder } from '../support/workshop.ts'

const PHONE = '+49 30 5550123'
const EMAIL = 'ada.fell@mail.example'
const ADDRESS = '7 Fell Lane'
const SECOND_CODE = '86753091'

/** A workshop on whose database somebody has laid hands, so that what is asked of its host fails in many places. */
async function startBroken() {
  const workshop = createWorkshop({ keptIn: 'folder' })
  const dataDir = workshop.dataDir ?? ''
  const broken = (table: string, when: string, words: string) =>
    `CREATE TRIGGER broken_${table} BEFORE ${when} ON ${table} BEGIN SELECT RAISE(ABORT, ${words}); END;`
  // The message of an error may repeat what was entered.
  const { sqlite } = workshop.db.writer
  sqlite.exec(broken('contact', 'INSERT', "'not kept: ' || NEW.email || ', ' || NEW.phone"))
  sqlite.exec(broken('code', 'UPDATE', "'not kept'"))
  workshop.db.close()
  const printed: string[] = []
  const log = (line: string) => printed.push(line)
  const host = await startHost({ ...PLAIN_HOST, dataDir, log })
  onTestFinished(async () => {
    await host.close()
    rmSync(dataDir, { recursive: true })
  })
  return { ...host, dataDir, printed }
}

test('the log of a host on which much goes wrong holds no code, token, cookie, secret or contact detail', async () => {
  const { url, windowUrl, dataDir, printed } = await startBroken()
  const entered = await fetch(windowUrl, { redirect: 'manual' })
  const cookie = entered.headers.get('set-cookie')?.split(';')[0] ?? ''
  const post = (path: string, body: string) =>
    fetch(new URL(path, url), {
      method: 'POST',
      headers: { cookie, origin: new URL(url).origin, 'content-type': 'application/json' },
      body,
    })
  const signedIn = await post('/trpc/signIn', JSON.stringify({ personId: manager, code: '314159' }))
  expect(await signedIn.json()).toMatchObject({ result: { data: { ok: true } } })
  await post('/trpc/signIn', JSON.stringify({ personId: welder, code: SECOND_CODE }))
  const contact = { name: 'Ada Fell', phone: PHONE, email: EMAIL, address: ADDRESS }
  const payloads = {
    addParty: { partyId: 'party-fell', kind: 'owner', contact },
    changeContact: { id: 'party-owner', contact },
    addPerson: {
      personId: 'person-new',
      roles: ['technician'],
      skills: [],
      week: null,
      absences: [],
      contact,
      code: SECOND_CODE,
    },
    setCode: { personId: welder, newCode: SECOND_CODE },
  }
  for (const [kind, payload] of Object.entries(payloads)) {
    const envelope = { id: `command-${kind.toLowerCase()}`, kind, carId: null, seen: null, by: manager }
    const rest = { code: '314159', second: null, happened: null, made: '2026-11-23T09:00:00+01:00', payload }
    await post('/trpc/command', JSON.stringify({ ...envelope, ...rest }))
    await post('/trpc/command', JSON.stringify({ ...envelope, ...rest }).slice(0, -20))
  }
  await fetch(new URL('/?enter=wrong-secret', url), { headers: { cookie } })

  expect(printed.length).toBeGreaterThanOrEqual(3)
  const kept = readdirSync(logsFolder(dataDir)).map((name) =>
    readFileSync(join(logsFolder(dataDir), name), 'utf8'),
  )
  const lines = kept.join('')
  expect(lines.match(/^\d{4}-\d\d-\d\dT[\d:.]+Z /gm)).toHaveLength(printed.length)
  const secret = new URL(windowUrl).searchParams.get('enter') ?? ''
  const token = cookie.split('=')[1] ?? ''
  expect(Math.min(secret.length, token.length)).toBeGreaterThan(10)
  const personal = [
    '314159',
    SECOND_CODE,
    '2718',
    PHONE,
    '5550123',
    EMAIL,
    ADDRESS,
    secret,
    token,
    'wrong-secret',
  ]
  for (const each of personal) expect(lines, each).not.toContain(each)
})
