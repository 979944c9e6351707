import { randomUUID } from 'node:crypto'
import { rmSync } from 'node:fs'
import { expect, onTestFinished, test, vi } from 'vitest'
import { startHost } from '../../electron/host.ts'
import { type BusyDesks, wordsUnderWay } from '../../electron/under-way.ts'
import { carWithEveryKind } from '../support/car-file.ts'
import { PLAIN_HOST } from '../support/plain-host.ts'
import { codes, createWorkshop, manager } from '../support/workshop.ts'

/** Desks of which some are at work. */
function desks({
  copies = 'nothing',
  check = 'nothing',
  restoring = false,
  whole = false,
  taking = false,
  cars = 0,
} = {}) {
  return {
    copies: { state: () => ({ doing: { kind: copies } }), restoring: () => (restoring ? 'It reads.' : null) },
    check: { state: () => ({ doing: { kind: check } }) },
    whole: {
      progress: () =>
        whole ? { doing: 'writing', done: 1, of: 2 } : { doing: 'finished', files: 1, bytes: 1 },
      takingIn: () => (taking ? 'It reads.' : null),
    },
    carFiles: { making: () => cars },
  } as unknown as BusyDesks
}

test('at rest nothing is under way, and what only reads may be broken off unasked', () => {
  expect(wordsUnderWay(desks())).toEqual([])
  expect(wordsUnderWay(desks({ copies: 'verifying', check: 'checking' }))).toEqual([])
})

test('each thing that somebody would have to begin again is a sentence', () => {
  expect(wordsUnderWay(desks({ copies: 'copying' }))).toEqual(['A copy of the workshop is being made.'])
  expect(wordsUnderWay(desks({ check: 'mending', cars: 1 }))).toEqual([
    'Damaged files are being mended.',
    'The file of a car is being made.',
  ])
  expect(wordsUnderWay(desks({ whole: true, cars: 3 }))).toEqual([
    'The whole workshop is being taken out.',
    'The files of 3 cars are being made.',
  ])
  expect(wordsUnderWay(desks({ restoring: true, taking: true }))).toEqual([
    'A copy is being restored.',
    'A workshop is being taken in.',
  ])
})

test('a host says that it makes the file of a car, until that is made or given up', async () => {
  const workshop = createWorkshop({ keptIn: 'folder' })
  const { carId } = await carWithEveryKind(workshop)
  const dataDir = workshop.dataDir ?? ''
  workshop.db.close()
  const host = await startHost({
    dataDir,
    ...PLAIN_HOST,
    log: () => {},
  })
  onTestFinished(async () => {
    await host.close()
    rmSync(dataDir, { recursive: true })
  })
  const entered = await fetch(host.windowUrl, { redirect: 'manual' })
  const cookie = entered.headers.get('set-cookie')?.split(';')[0] ?? ''
  const { origin } = new URL(host.url)
  await fetch(new URL('/trpc/signIn', origin), {
    method: 'POST',
    headers: { cookie, origin, 'content-type': 'application/json' },
    body: JSON.stringify({ personId: manager, code: codes[manager] }),
  })
  expect(host.underWay()).toEqual([])
  const asked = fetch(new URL(`/car-files/${carId}.zip?watch=${randomUUID()}`, origin), {
    headers: { cookie },
  })
  await vi.waitFor(() => expect(host.underWay()).toEqual(['The file of a car is being made.']))
  await (await asked).arrayBuffer()
  await vi.waitFor(() => expect(host.underWay()).toEqual([]))
})
