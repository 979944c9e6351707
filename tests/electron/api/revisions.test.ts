import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { createTestHost, type TestHost, type TestScreen } from '../../support/host.ts'
import { fullWeek, manager, owner, welder } from '../../support/workshop.ts'
import type { RevisionChange } from '../../../electron/api/revisions.ts'

let host: TestHost
let first: TestScreen
let second: TestScreen
beforeAll(async () => {
  host = await createTestHost()
  first = await host.openScreen()
  second = await host.openScreen()
})
afterAll(() => host.close())

interface Heard {
  readonly id: string
  readonly data: RevisionChange
}

/** Opens the live connection of a screen and hands on what it says, message by message. */
async function listen(screen: TestScreen, lastEventId?: string) {
  const input =
    lastEventId === undefined ? '' : `?input=${encodeURIComponent(JSON.stringify({ lastEventId }))}`
  const stop = new AbortController()
  const answer = await screen.request(`/trpc/revisions${input}`, {
    headers: { accept: 'text/event-stream' },
    signal: stop.signal,
  })
  expect(answer.headers.get('content-type')).toContain('text/event-stream')
  const reader = answer.body!.pipeThrough(new TextDecoderStream()).getReader()
  let text = ''
  const message = async (): Promise<string | null> => {
    while (!text.includes('\n\n')) {
      const { done, value } = await reader.read()
      if (done) return null
      text += value
    }
    const end = text.indexOf('\n\n')
    const found = text.slice(0, end).trim()
    text = text.slice(end + 2)
    return found
  }
  /** The next change; null when the host has ended the connection. */
  const next = async (): Promise<Heard | null> => {
    for (let said = await message(); said !== null; said = await message()) {
      const field = (name: string) => new RegExp(`^${name}: (.*)$`, 'm').exec(said)?.[1]
      const id = field('id')
      if (id !== undefined) return { id, data: JSON.parse(field('data') ?? 'null') as RevisionChange }
    }
    return null
  }
  return { next, stop: () => stop.abort() }
}

const note = (text: string, carId: ReturnType<TestHost['workshop']['addCar']>) =>
  first.run('addNote', { text }, { carId, by: welder })

describe('two screens', () => {
  test('stay in step: what one records, the other hears of', async () => {
    const carId = host.workshop.addCar('Larkspur 4', 'S-STEP')
    const heard = await listen(second)
    const waiting = heard.next()
    const { revision } = await note('seen', carId)
    expect(await waiting).toEqual({
      id: String(revision),
      data: { revision, carIds: [carId], workshop: false, plan: false },
    })
    heard.stop()
  })

  test('hear of the workshop itself as well', async () => {
    const heard = await listen(second)
    const waiting = heard.next()
    await first.signIn(manager)
    const { revision } = await first.run('setCalendar', { week: fullWeek, holidays: [] })
    expect((await waiting)?.data).toEqual({ revision, carIds: [], workshop: true, plan: false })
    heard.stop()
  })

  test('hear of a new name, which no fact holds', async () => {
    const heard = await listen(second)
    const waiting = heard.next()
    await first.signIn(manager)
    const contact = { name: 'Ruth Okafor', phone: '', email: '' as const, address: '' }
    const { revision, numbers } = await first.run('changeContact', { id: owner, contact })
    expect(numbers).toEqual([])
    expect((await waiting)?.data).toEqual({ revision, carIds: [], workshop: true, plan: false })
    expect((await second.client.workshop.query()).parties.map((each) => each.name)).toContain('Ruth Okafor')
    heard.stop()
  })

  test('that were cut off go on where they were, and miss nothing', async () => {
    const one = host.workshop.addCar('Larkspur 6', 'S-CUT-1')
    const two = host.workshop.addCar('Larkspur 7', 'S-CUT-2')
    const before = await first.client.session.query()
    await note('one', one)
    const { revision } = await note('two', two)
    const heard = await listen(second, String(before.revision))
    expect(await heard.next()).toEqual({
      id: String(revision),
      data: { revision, carIds: [one, two], workshop: false, plan: false },
    })
    heard.stop()
  })

  test('hear of the last of many changes', async () => {
    const carId = host.workshop.addCar('Larkspur 8', 'S-MANY')
    const heard = await listen(second)
    await note('one', carId)
    const last = await note('two', carId)
    let change = await heard.next()
    while (change !== null && change.data.revision < last.revision) change = await heard.next()
    expect(change?.data).toMatchObject({ revision: last.revision, carIds: [carId] })
    heard.stop()
  })
})

test('a live connection ends when the host closes', async () => {
  const closing = await createTestHost()
  const heard = await listen(await closing.openScreen())
  const waiting = heard.next()
  await closing.close()
  expect(await waiting).toBeNull()
})

test('a refused command is heard of by nobody', async () => {
  const carId = host.workshop.addCar('Larkspur 9', 'S-NONE')
  const heard = await listen(second)
  const waiting = heard.next()
  expect(await first.send('addNote', { text: '' }, { carId, by: welder })).toMatchObject({ ok: false })
  const { revision } = await note('something', carId)
  expect((await waiting)?.data.revision).toBe(revision)
  heard.stop()
})
