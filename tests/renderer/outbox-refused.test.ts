import 'fake-indexeddb/auto'
import { beforeEach, describe, expect, onTestFinished, test, vi } from 'vitest'
import type { Command } from '../../domain/commands/command-shapes.ts'
import { createOutbox, type Outbox } from '../../renderer/outbox/create-outbox.ts'
import type { CommandAnswer } from '../../renderer/outbox/outcome.ts'
import type { PreparedGate } from '../../renderer/outbox/prepared-gate.ts'
import { command, createHostStandIn, fresh, photo, type HostStandIn } from '../support/outbox-host.ts'

let host: HostStandIn
let outbox: Outbox

beforeEach(() => {
  host = createHostStandIn()
  outbox = createOutbox(host.ports(fresh()))
})

const startClock = (id: string, entryId: string): Command =>
  command(id, { kind: 'startClock', payload: { entryId, personId: 'person-wren' } })
const stopClock = (id: string, entryId: string): Command =>
  command(id, { kind: 'stopClock', payload: { entryId, overtime: false, shares: null } })
const refusedIds = () => outbox.state().refused.map((each) => each.command.id as string)

describe('what the host refuses later', () => {
  beforeEach(async () => {
    host.isAway = true
    await outbox.send(startClock('start-1', 'entry-1'))
    await outbox.send(stopClock('stop-1', 'entry-1'))
    await outbox.send(command('note-1'))
    host.isAway = false
    host.refuse = ({ id }) => id === 'start-1'
    await outbox.flush()
  })

  test('lets what does not rest on it pass, and is told together with what does', () => {
    expect(host.idsThatArrived()).toEqual(['start-1', 'note-1'])
    expect(refusedIds()).toEqual(['start-1', 'stop-1'])
    expect(outbox.state().refused[1]).toMatchObject({
      refusedWith: 'start-1',
      refusal: { message: 'It rests on what the host refused: Bay 3 is taken.' },
    })
  })

  test('goes out again with what rests on it when the person says so, in the old order', async () => {
    host.refuse = () => false
    await outbox.retryCommand('start-1' as Command['id'])
    expect(host.idsThatArrived()).toEqual(['start-1', 'note-1', 'start-1', 'stop-1'])
    expect(refusedIds()).toEqual([])
  })

  test('is put aside with what rests on it', async () => {
    await outbox.dismissCommand('start-1' as Command['id'])
    expect(refusedIds()).toEqual([])
    expect(await host.kept.commands()).toEqual([])
  })
})

describe('a command about a photo that is still on the device', () => {
  const finding = command('finding-1', {
    kind: 'addFinding',
    payload: { findingId: 'found-1', attachments: ['photo-1'] },
  })

  test('goes out after the photo', async () => {
    host.isAway = true
    await outbox.addPhotos([photo('photo-1', 'one')])
    expect(await outbox.send(finding)).toEqual({ is: 'kept' })
    host.isAway = false
    await outbox.flush()
    expect(host.idsThatArrived()).toEqual(['command-of-photo-1', 'finding-1'])
  })

  test('is refused with the photo, and leaves with it', async () => {
    host.isAway = true
    await outbox.addPhotos([photo('photo-1', 'one')])
    await outbox.send(finding)
    host.isAway = false
    host.refusePhotos = true
    await outbox.flush()
    expect(refusedIds()).toEqual(['finding-1'])
    expect(await outbox.state().photos[0]?.bytes.text()).toBe('one')
    await outbox.dismissPhoto('photo-1' as never)
    expect(await host.kept.commands()).toEqual([])
  })
})

describe('the time of an entry', () => {
  test('is the host’s own when it gets through at once, and as entered when it is sent later', async () => {
    await outbox.send(startClock('start-1', 'entry-1'))
    host.isAway = true
    await outbox.send(stopClock('stop-1', 'entry-1'))
    await outbox.send(command('note-1', { happened: '2026-11-25T09:00:00+00:00' }))
    await outbox.addPhotos([photo('photo-1', 'one')])
    await outbox.flush()
    host.isAway = false
    // The page was closed meanwhile.
    await createOutbox(host.ports(host.kept)).flush()
    const happened = new Map(host.arrived.map((each) => [each.id as string, each.happened]))
    expect(Object.fromEntries(happened)).toEqual({
      'start-1': null,
      'stop-1': host.now,
      'note-1': '2026-11-25T09:00:00+00:00',
      'command-of-photo-1': host.now,
    })
  })
})

describe('two pages of one device', () => {
  test('send each thing once where pages can agree who sends', async () => {
    const alone = oneAtATime()
    const one = createOutbox({ ...host.ports(host.kept), alone })
    const other = createOutbox({ ...host.ports(host.kept), alone })
    const ids = Array.from({ length: 12 }, (_each, index) => `note-${index}`)
    const outcomes = await Promise.all(
      ids.map((id, index) => (index % 2 === 0 ? one : other).send(command(id))),
    )
    expect(outcomes.map(({ is }) => is)).toEqual(ids.map(() => 'done'))
    expect(host.idsThatArrived().toSorted()).toEqual(ids.toSorted())
  })

  test('answer everybody and leave nothing where they cannot', async () => {
    const one = createOutbox(host.ports(host.kept))
    const other = createOutbox(host.ports(host.kept))
    const ids = Array.from({ length: 12 }, (_each, index) => `note-${index}`)
    const outcomes = await Promise.all(
      ids.map((id, index) => (index % 2 === 0 ? one : other).send(command(id))),
    )
    expect(outcomes.map(({ is }) => is)).toEqual(ids.map(() => 'done'))
    expect(new Set(host.idsThatArrived())).toEqual(new Set(ids))
    expect(await host.kept.commands()).toEqual([])
  })
})

describe('a network that swallows what is sent', () => {
  test('keeps nobody waiting: what was entered is kept, and is sent when there is an answer', async () => {
    vi.useFakeTimers({ toFake: ['setTimeout'] })
    onTestFinished(() => void vi.useRealTimers())
    const answered = Promise.withResolvers<CommandAnswer>()
    const slow = createOutbox({ ...host.ports(host.kept), post: () => answered.promise })
    const outcome = slow.send(command('note-1'))
    await vi.waitUntil(() => vi.getTimerCount() > 0)
    await vi.runAllTimersAsync()
    expect(await outcome).toEqual({ is: 'kept' })
    expect(slow.state()).toMatchObject({ away: true, waiting: 1 })
    answered.resolve({ ok: true, revision: 1, numbers: [1] })
    await slow.flush()
    expect(slow.state()).toMatchObject({ away: false, waiting: 0 })
  })
})

test('an error that carries the host’s own words is told with them', async () => {
  const failing = createOutbox({
    ...host.ports(host.kept),
    post: () => Promise.reject(new Error('500')),
    refusalOf: () => host.refusal,
  })
  expect(await failing.send(command('note-1'))).toEqual({ is: 'refused', refusal: host.refusal })
})

describe('a code in what is entered', () => {
  test('keeps it from the store, wherever it stands', async () => {
    host.isAway = true
    const added = command('person-1', { kind: 'addPerson', payload: { code: '246810' } })
    expect(await outbox.send(added)).toMatchObject({ is: 'refused', refusal: { code: 'not-now' } })
    expect(await host.kept.commands()).toEqual([])
  })
})

describe('a prepared gate', () => {
  const gate: PreparedGate = {
    command: command('gate-1', { kind: 'passGate', happened: '2026-11-25T10:00:00+00:00' }),
    told: null,
    title: 'Sign off primed',
    says: ['Spare-wheel well'],
    confirm: 'Sign primed',
    second: false,
    cautions: [],
    refusal: null,
  }
  const signature = { by: 'person-joss' as Command['by'], code: '1003', second: null }

  test('outlives the page without a code, and is signed with the time that it states', async () => {
    expect(await outbox.prepare(gate)).toBeNull()
    const later = createOutbox(host.ports(host.kept))
    await later.flush()
    expect(later.state().prepared).toEqual([gate])
    expect(await later.signPrepared(gate, signature)).toMatchObject({ is: 'done' })
    expect(host.arrived).toMatchObject([
      { id: 'gate-1', by: 'person-joss', code: '1003', happened: '2026-11-25T10:00:00+00:00' },
    ])
    expect(later.state().prepared).toEqual([])
  })

  test('that is refused stays to be read, with the host’s words and without the code', async () => {
    await outbox.prepare(gate)
    host.refuse = () => true
    await outbox.signPrepared(gate, signature)
    expect(outbox.state().prepared).toEqual([{ ...gate, refusal: host.refusal }])
    await outbox.dismissPrepared(gate.command.id)
    expect(outbox.state().prepared).toEqual([])
  })

  test('stays as it is when the host is away again', async () => {
    await outbox.prepare(gate)
    host.isAway = true
    expect(await outbox.signPrepared(gate, signature)).toMatchObject({ is: 'refused' })
    expect(outbox.state()).toMatchObject({ away: true, prepared: [gate] })
  })
})

/** As Web Locks do. */
function oneAtATime() {
  const last = new Map<string, Promise<unknown>>()
  return <Result>(turn: string, run: () => Promise<Result>): Promise<Result> => {
    const mine = (last.get(turn) ?? Promise.resolve()).then(run)
    last.set(
      turn,
      mine.catch(() => undefined),
    )
    return mine
  }
}
