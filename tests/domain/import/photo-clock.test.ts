import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Moment } from '../../../domain/car.ts'
import { clockCorrection, correctionWords } from '../../../domain/import/photo-clock.ts'
import { instantsShowing, instantToLocal } from '../../../domain/time/zone.ts'
import { buildCar } from '../../support/car-builder.ts'
import { cardNow, cardPhoto, clocked, matchCard } from '../../support/card.ts'

describe('a camera whose clock is off', () => {
  const right = [
    '07:58:00',
    '08:30:00',
    '09:36:00',
    '10:30:00',
    '12:10:00',
    '14:32:10',
    '15:20:00',
    '15:51:00',
  ]
  const photos = (times: readonly string[], shift: number) =>
    times.map((time, index) => {
      const shown = new Date(Date.parse(`2026-11-24T${time}Z`) + shift).toISOString().slice(0, 19)
      return cardPhoto(`${index}`, shown)
    })

  test('is put right for all photos by the one that is known to be of 14:32', () => {
    const slow = -64 * 60_000
    const card = photos(right, slow)
    const camera = card[5]!.camera!
    const correction = clockCorrection({ camera, date: '2026-11-24', time: '14:32' }, 'UTC', cardNow)
    if (!correction.ok) throw new Error(correction.refusal.message)
    expect(correctionWords(correction.value)).toBe('The camera’s clock is 1 h 4 min slow.')
    expect(matchCard(card, undefined, { correction: correction.value })).toEqual(matchCard(photos(right, 0)))
    expect(matchCard(card)).not.toEqual(matchCard(photos(right, 0)))
  })

  test('cannot be put right by a photo without a date or by a time to come', () => {
    const camera = { local: '2026-11-24T14:32:10', offset: null }
    expect(clockCorrection({ camera, date: '2026-11-26', time: '14:32' }, 'UTC', cardNow)).toMatchObject({
      ok: false,
      refusal: { code: 'bad-input', message: 'The time that was given is still to come.' },
    })
    const broken = { local: '2026-13-41T14:32:10', offset: null }
    expect(clockCorrection({ camera: broken, date: '2026-11-24', time: '14:32' }, 'UTC', cardNow).ok).toBe(
      false,
    )
  })

  // The clocks of London went back on 25 October 2026 at 01:00Z (IANA time zone database).
  test('gives the matches of a right camera by any one reference, over a change of the clocks too', () => {
    const london = 'Europe/London'
    const car = buildCar().repair('Boot floor, right').repair('Left sill')
    for (const [day, work] of [
      ['2026-10-24', ['Boot floor, right', 'opened']],
      ['2026-10-25', ['Left sill', 'opened']],
      ['2026-10-26', ['Boot floor, right', 'assessed']],
    ] as const) {
      clocked(car, [`a ${day}`, 'Joss'], [...work], ['06:00', '11:00'], day)
      clocked(car, [`b ${day}`, 'Wren'], ['Left sill', 'welded'], ['10:00', '15:00'], day)
    }
    // The visit of the builder is opened on 2 November: this car has come earlier than it was entered.
    const first = Date.parse('2026-10-24T00:00:00Z')
    const moment = fc.integer({ min: 0, max: 3 * 86_400 }).map((seconds) => first + seconds * 1000)
    fc.assert(
      fc.property(
        fc.array(moment, { minLength: 1, maxLength: 12 }),
        fc.nat(),
        fc.integer({ min: -400 * 86_400, max: 400 * 86_400 }),
        (moments, pick, offSeconds) => {
          const reference = moments[pick % moments.length]!
          const { date } = instantToLocal(reference, london)
          const time = timeWithSeconds(reference, london)
          fc.pre(instantsShowing(date, time, london).length === 1)
          const off = moments.map((at, index) =>
            cardPhoto(`${index}`, new Date(at + offSeconds * 1000).toISOString().slice(0, 19)),
          )
          const good = moments.map((at, index) =>
            cardPhoto(`${index}`, new Date(at).toISOString().slice(0, 19), '+00:00'),
          )
          const { camera } = off[pick % moments.length]!
          const correction = clockCorrection({ camera: camera!, date, time }, london, cardNow)
          if (!correction.ok) throw new Error(correction.refusal.message)
          const options = { zone: london }
          expect(matchCard(off, [car], { ...options, correction: correction.value })).toEqual(
            matchCard(good, [car], options),
          )
        },
      ),
      { numRuns: 150 },
    )
  })
})

const timeWithSeconds = (at: Moment, zone: string): string =>
  `${instantToLocal(at, zone).time}:${new Date(at).toISOString().slice(17, 19)}`

describe('the hour in which the clocks change', () => {
  const car = buildCar().repair('Left sill')
  clocked(car, ['night', 'Wren'], ['Left sill', 'opened'], ['00:00', '02:00'], '2026-10-25')
  const inLondon = (local: string, offset: string | null = null) =>
    matchCard([cardPhoto('a', local, offset)], [car], { zone: 'Europe/London' })[0]!

  test('comes twice in autumn: the first one is meant, it is said so, and nothing is certain', () => {
    expect(inLondon('2026-10-25T01:30:00')).toMatchObject({
      taken: Date.parse('2026-10-25T00:30:00Z'),
      sure: 'likely',
      says: '01:30 came twice on Sun 25 Oct, when the clocks went back; the first one is meant here.',
    })
  })

  test('is no riddle for a camera that says its own offset', () => {
    expect(inLondon('2026-10-25T01:30:00', '+00:00')).toMatchObject({
      taken: Date.parse('2026-10-25T01:30:00Z'),
      sure: 'certain',
      says: '',
    })
  })

  test('is skipped in spring: a camera that shows it is told of', () => {
    const early = buildCar().repair('Left sill')
    clocked(early, ['night', 'Wren'], ['Left sill', 'opened'], ['00:00', '02:00'], '2026-03-29')
    const [found] = matchCard([cardPhoto('a', '2026-03-29T01:30:00')], [early], { zone: 'Europe/London' })
    expect(found).toMatchObject({
      taken: Date.parse('2026-03-29T01:00:00Z'),
      says: '01:30 was skipped on Sun 29 Mar, when the clocks went forward.',
    })
  })
})
