import { describe, expect, test } from 'vitest'
import type { OutboxState, PhotoInOutbox, RefusedCommand } from '../../renderer/outbox/board.ts'
import { followOutbox } from '../../renderer/outbox/outbox-aloud.ts'
import type { PreparedGate } from '../../renderer/outbox/prepared-gate.ts'

const empty: OutboxState = {
  away: false,
  waiting: 0,
  commands: [],
  refused: [],
  photos: [],
  arriving: [],
  prepared: [],
  broken: null,
}
const refusal = { code: 'not-now', message: 'The gate is passed already.', next: 'Reload the page.' } as const
const photo = (attachmentId: string, state: PhotoInOutbox['state'] = 'waiting'): PhotoInOutbox =>
  ({ attachmentId, state, refusal: state === 'refused' ? refusal : null }) as PhotoInOutbox

/** What is said at each of these states, one after another. */
const told = (...states: readonly Partial<OutboxState>[]): readonly (readonly string[])[] => {
  const follow = followOutbox()
  follow(empty)
  return states.map((state) => follow({ ...empty, ...state }))
}

describe('what a screen reader is told of the outbox', () => {
  test('a photo is told of once it is stored, and at once where it has to wait', () => {
    expect(told({ photos: [photo('a')] }, { photos: [photo('a', 'sending')] }, {})).toEqual([
      [],
      [],
      ['1 photo stored.'],
    ])
    expect(told({ away: true, photos: [photo('a'), photo('b')] })).toEqual([
      ['2 photos kept on this device, to be sent later.'],
    ])
  })

  test('entries are told of while the host is away, and once when all of them are sent', () => {
    const states = [
      { waiting: 1 },
      {},
      { away: true, waiting: 1 },
      { away: true, waiting: 1 },
      { waiting: 1 },
      {},
    ]
    expect(told(...states)).toEqual([
      [],
      [],
      ['1 entry kept on this device, to be sent later.'],
      [],
      [],
      ['What waited on this device is sent.'],
    ])
  })

  test('what the host refuses afterwards is told in its words, and not again while it stands', () => {
    const command = { command: { id: 'command-1' }, refusal } as RefusedCommand
    const words = 'Not done: The gate is passed already. Reload the page.'
    expect(told({ refused: [command] }, { refused: [command] })).toEqual([[words], []])
    expect(told({ photos: [photo('a')] }, { photos: [photo('a', 'refused')] }, {})).toEqual([[], [words], []])
  })

  test('a prepared gate is told of as not signed', () => {
    expect(told({ prepared: [{} as PreparedGate] }, {})).toEqual([['The gate is prepared, not signed.'], []])
  })
})
