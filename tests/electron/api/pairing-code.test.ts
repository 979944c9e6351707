import { beforeEach, describe, expect, test } from 'vitest'
import { createPairingCodes, plainCode, type PairingCodes } from '../../../electron/api/pairing-code.ts'

const SECOND = 1_000
const MINUTE = 60 * SECOND

let now: number
let codes: PairingCodes
beforeEach(() => {
  now = Date.UTC(2026, 10, 28, 9)
  codes = createPairingCodes(() => now)
})

const tablet = '192.168.1.31'
const stranger = '192.168.1.66'

/** What a code was answered with, as one word. */
const given = async (code: string, address = tablet, by = 'Tablet') => {
  const answer = await codes.use(code, address, by)
  return answer.ok ? 'let in' : answer.refusal.code
}
const wordsFor = async (code: string, address = tablet) => {
  const answer = await codes.use(code, address, 'Tablet')
  return answer.ok ? 'let in' : `${answer.refusal.message} ${answer.refusal.next}`
}
const WRONG = 'AAAAAAAA'

describe('a pairing code', () => {
  test('has eight characters that cannot be taken for each other, and another one each time', async () => {
    const made = await Promise.all(Array.from({ length: 50 }, () => codes.make()))
    for (const { text } of made) expect(text).toMatch(/^[0-9A-HJKMNP-TV-Z]{8}$/)
    expect(new Set(made.map(({ text }) => text)).size).toBe(50)
  })

  test('is read however it is typed', () => {
    expect(plainCode(' 4f7k-m2qx ')).toBe('4F7KM2QX')
    expect(plainCode('oIl0 1ABC')).toBe('01101ABC')
  })

  test('lets one device in, and a second time it is refused in words', async () => {
    const { text } = await codes.make()
    expect(codes.state()).toMatchObject({ is: 'open' })
    expect(await given(text.toLowerCase(), tablet, 'Tablet by the jig')).toBe('let in')
    expect(codes.state()).toMatchObject({ is: 'used', by: 'Tablet by the jig' })
    expect(await wordsFor(text, stranger)).toBe(
      'This code has let a device in already; each lets in one. Ask a manager for a new code.',
    )
  })

  test('sent by many devices at once lets one of them in', async () => {
    const { text } = await codes.make()
    const answers = await Promise.all(Array.from({ length: 20 }, (_, at) => given(text, `192.168.1.${at}`)))
    expect(answers.filter((each) => each === 'let in')).toHaveLength(1)
  })

  test('lasts five minutes by the host’s clock, and says so afterwards', async () => {
    const { text, until } = await codes.make()
    expect(until).toBe(now + 5 * MINUTE)
    now = until
    expect(codes.state()).toMatchObject({ is: 'over' })
    expect(await wordsFor(text)).toBe(
      'This code has run out: it lasts five minutes. Ask a manager for a new code.',
    )
  })

  test('counts no longer when another one is shown', async () => {
    const { text: first } = await codes.make()
    const { text: second } = await codes.make()
    expect(await given(first)).toBe('wrong-code')
    now += SECOND
    expect(await given(second)).toBe('let in')
  })

  test('there is none before a manager asks for one', async () => {
    expect(codes.state()).toBeNull()
    expect(await given('')).toBe('wrong-code')
  })
})

describe('whoever guesses', () => {
  test('waits a second after a wrong code, then two, four and so on up to an hour', async () => {
    const waits: number[] = []
    for (let guess = 0; guess < 14; guess += 1) {
      await given(WRONG, stranger)
      const from = now
      while ((await given(WRONG, stranger)) === 'locked' && now - from < 2 * 60 * MINUTE) now += SECOND
      waits.push((now - from) / SECOND)
      // The guess that ended the loop was let through and counted: wait it out as well.
      await codes.make()
      now += 2 * 60 * MINUTE
    }
    expect(waits.slice(0, 4)).toEqual([1, 4, 16, 64])
    expect(Math.max(...waits)).toBe(3_600)
  })

  test('is not looked at while waiting, not even with the right code', async () => {
    const { text } = await codes.make()
    await given(WRONG, stranger)
    expect(await wordsFor(text, stranger)).toBe(
      'A wrong code was given from this device. Wait 1 second, then try again.',
    )
    expect(await given(text, tablet)).toBe('let in')
  })

  test('makes the code void with the fifth wrong one, from whatever addresses', async () => {
    const { text } = await codes.make()
    for (let guess = 1; guess < 5; guess += 1)
      expect(await given(WRONG, `192.168.1.${guess}`)).toBe('wrong-code')
    expect(await given(WRONG, '192.168.1.5')).toBe('locked')
    expect(codes.state()).toMatchObject({ is: 'void' })
    expect(await wordsFor(text)).toContain('Five wrong codes were given')
    const { text: another } = await codes.make()
    expect(await given(another)).toBe('let in')
  })

  test('gets no further guess by sending many at once', async () => {
    const { text } = await codes.make()
    const guesses = Array.from({ length: 200 }, (_, at) => given(WRONG, `10.0.0.${at}`))
    const right = given(text, tablet)
    await Promise.all(guesses)
    expect(await right).toBe('locked')
  })

  test('waits no longer once the right code was given', async () => {
    await codes.make()
    await given(WRONG)
    const { text } = await codes.make()
    now += SECOND
    expect(await given(text)).toBe('let in')
    await codes.make()
    await given(WRONG)
    now += SECOND
    expect(await given(WRONG)).toBe('wrong-code')
  })
})
