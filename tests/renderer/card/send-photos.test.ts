import { describe, expect, test } from 'vitest'
import { sendPhotos, type SendPorts, type SentAnswer } from '../../../renderer/card/send-photos.ts'

class Away extends Error {}
const files = ['a', 'b', 'c', 'd'].map((name) => new File([name], `${name}.jpg`))

/** A host that is away for the first so many uploads, and what it was told and answered. */
function host(awayFor: number, over: Partial<SendPorts> = {}) {
  const seen = { answered: [] as string[], away: [] as boolean[], pauses: 0, sent: 0 }
  const send = async (photo: Blob): Promise<SentAnswer> => {
    seen.sent += 1
    if (seen.sent <= awayFor) throw new Away()
    const name = await photo.text()
    if (name === 'c')
      return { ok: false, refusal: { code: 'photo', message: 'It is damaged.', next: 'Take it again.' } }
    return { ok: true, sha256: name.repeat(64) }
  }
  const ports: SendPorts = {
    send,
    isAway: (error) => error instanceof Away,
    pause: async () => {
      seen.pauses += 1
    },
    isStopped: () => false,
    onAnswer: ({ name }, answer) =>
      seen.answered.push(answer.ok ? name : `${name}: ${answer.refusal.message}`),
    onAway: (away) => seen.away.push(away),
    ...over,
  }
  return { seen, ports }
}

describe('photos on their way to the host', () => {
  test('are each answered once, a damaged one with its reason', async () => {
    const { seen, ports } = host(0)
    await sendPhotos(files, ports)
    expect(seen.answered.toSorted()).toEqual(['a.jpg', 'b.jpg', 'c.jpg: It is damaged.', 'd.jpg'])
  })

  test('wait while the host is away and go on by themselves', async () => {
    const { seen, ports } = host(5)
    await sendPhotos(files, ports)
    expect(seen.answered).toHaveLength(4)
    expect(seen.pauses).toBe(5)
    expect(seen.away.at(0)).toBe(true)
    expect(seen.away.at(-1)).toBe(false)
  })

  test('stop when they are told to, while the host is away too', async () => {
    const state = { stopped: false }
    const { seen, ports } = host(Infinity, {
      isStopped: () => state.stopped,
      pause: async () => {
        state.stopped = true
      },
    })
    await sendPhotos(files, ports)
    expect(seen.answered).toEqual([])
  })
})
