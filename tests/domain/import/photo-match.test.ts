import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Moment } from '../../../domain/car.ts'
import { clockCorrection, correctionWords, type ClockCorrection } from '../../../domain/import/photo-clock.ts'
import { matchPhotos, reasonWords } from '../../../domain/import/photo-match.ts'
import type { CardPhoto, PhotoMatch } from '../../../domain/import/photo-match-shapes.ts'
import { carForPhotos, lackedPhotos } from '../../../domain/import/photo-work.ts'
import { instantsShowing, instantToLocal } from '../../../domain/time/zone.ts'
import { dayOnTheBootFloor, clocked, cardPhoto } from '../../support/card.ts'
import { buildCar, onGate, onTask, personId, repairId, type CarBuilder } from '../../support/car-builder.ts'
import { layerId, noAsks } from '../../support/plans.ts'
import { buildWorkshop, nameOf } from '../../support/workshop-builder.ts'

const workshop = buildWorkshop()
const now = Date.parse('2026-11-25T09:00:00Z')

function match(
  photos: readonly CardPhoto[],
  cars: readonly CarBuilder[] = [dayOnTheBootFloor()],
  more: {
    readonly correction?: ClockCorrection | null
    readonly zone?: string
    readonly now?: Moment
    readonly by?: string
  } = {},
): readonly PhotoMatch[] {
  const at = more.now ?? now
  const known = cars.map((car) =>
    carForPhotos(car.car(), { now: at, workshop, nameOf }, more.by === undefined ? null : personId(more.by)),
  )
  return matchPhotos({ photos, cars: known, correction: null, zone: 'UTC', ...more, now: at })
}

const one = (time: string, cars?: readonly CarBuilder[]): PhotoMatch =>
  match([cardPhoto('a', `2026-11-24T${time}`)], cars)[0]!

const fabricated = onGate('Boot floor, right', 'fabricated')

describe('a photo of a card', () => {
  test('belongs for certain to the one gate that somebody was clocked on when it was taken', () => {
    const { sure, fits, taken } = one('14:32:10')
    expect(sure).toBe('certain')
    expect(taken).toBe(Date.parse('2026-11-24T14:32:10Z'))
    expect(fits[0]).toMatchObject({
      target: fabricated,
      shows: 'work',
      doesNotCount: null,
    })
    expect(reasonWords(taken!, fits[0]!, 'UTC')).toBe(
      'taken at 14:32, while Joss was clocked on Boot floor, right, fabricated (13:10 to 15:40)',
    )
  })

  test('fits several when two people were clocked on different work', () => {
    const { sure, fits, says } = one('15:20:00')
    expect(sure).toBe('several fit')
    expect(fits.map(({ target }) => target)).toEqual([fabricated, onGate('Left sill', 'opened')])
    expect(says).toBe('2 pieces of work fit equally well.')
  })

  test('of a camera that belongs to one of them fits what that person was clocked on alone', () => {
    const at = cardPhoto('a', '2026-11-24T15:20:00')
    expect(match([at], undefined, { by: 'Joss' })[0]).toMatchObject({
      sure: 'certain',
      fits: [{ target: fabricated }],
    })
    expect(match([at], undefined, { by: 'Wren' })[0]).toMatchObject({
      sure: 'certain',
      fits: [{ target: onGate('Left sill', 'opened') }],
    })
    expect(match([at], undefined, { by: 'Ines' })[0]?.sure).toBe('none')
  })

  test('fits one piece of work, with both names, when two people were clocked on the same', () => {
    const car = clocked(
      dayOnTheBootFloor(),
      ['helping', 'Wren'],
      ['Boot floor, right', 'fabricated'],
      ['14:00', '14:50'],
    )
    const { sure, fits } = one('14:32:10', [car])
    expect(sure).toBe('certain')
    expect(fits[0]?.why).toBe('while Joss and Wren were clocked on Boot floor, right, fabricated')
  })

  test('is only likely while another piece of work was begun or stopped within 10 minutes', () => {
    expect(one('15:51:00')).toMatchObject({
      sure: 'certain',
      fits: [{ target: onGate('Left sill', 'opened') }],
    })
    expect(one('15:49:00')).toMatchObject({
      sure: 'likely',
      fits: [{ target: onGate('Left sill', 'opened') }],
      others: [{ target: fabricated }],
    })
  })

  test('taken when nobody was clocked on goes to the gate that was passed shortly after', () => {
    const { sure, fits } = one('09:36:00')
    // Joss stopped 6 minutes before it, and the gate was passed 4 minutes after: both say opened.
    expect(sure).toBe('likely')
    expect(fits[0]).toMatchObject({
      target: onGate('Boot floor, right', 'opened'),
      shows: 'after',
      why: '4 minutes before the gate opened was passed on Boot floor, right',
    })
  })

  test('shortly before the work of a gate began shows what was there before', () => {
    expect(one('07:55:00').fits[0]).toMatchObject({
      shows: 'before',
      why: '5 minutes before Joss began on Boot floor, right, opened (08:00 to 09:30)',
    })
    expect(one('08:10:00').fits[0]?.shows).toBe('before')
    expect(one('08:10:01').fits[0]?.shows).toBe('after')
  })

  test('far from all work fits nothing, and the nearest work is named as a hint', () => {
    const { sure, fits, others, says } = one('12:10:00')
    expect(sure).toBe('none')
    expect(says).toBe('No clocked work and no passed gate lies close to it.')
    expect(fits).toEqual([])
    expect(others[0]?.why).toMatch(/^60 minutes before Joss began on Boot floor, right, fabricated/)
  })

  test('without a camera date, from the future or from before the car came fits nothing and says why', () => {
    const says = (local: string | null) => match([cardPhoto('a', local)])[0]
    expect(says(null)).toEqual({
      sha256: cardPhoto('a', null).sha256,
      taken: null,
      sure: 'none',
      fits: [],
      others: [],
      says: 'It carries no camera date.',
    })
    expect(says('2026-11-25T09:00:01')).toMatchObject({
      sure: 'none',
      says: 'By the camera it was taken on Wed 25 Nov at 09:00, which is still to come: its clock is wrong.',
    })
    expect(says('2019-11-24T14:32:10')).toMatchObject({
      sure: 'none',
      says: 'It was taken on Sun 24 Nov 2019 at 14:32, before this car had come.',
    })
  })

  test('taken during work on a gate but before the gate before it was passed says that it will not count', () => {
    const car = dayOnTheBootFloor()
    clocked(car, ['early', 'Wren'], ['Boot floor, right', 'assessed'], ['09:15', '09:38'])
    const fits = one('09:35:00', [car]).fits
    expect(fits[0]).toMatchObject({
      target: onGate('Boot floor, right', 'assessed'),
      doesNotCount: 'It will not count for assessed: opened was passed later, at 09:40.',
    })
  })

  test('of hours without times is likely when they are the only ones of that day', () => {
    const time = { kind: 'day', date: '2026-11-23', hours: 3 } as const
    const car = dayOnTheBootFloor().log('paper', 'Wren', time, [onGate('Left sill', 'opened')])
    const [found] = match([cardPhoto('a', '2026-11-23T10:00:00')], [car])
    expect(found).toMatchObject({ sure: 'likely', fits: [{ target: onGate('Left sill', 'opened') }] })
    expect(found?.fits[0]?.why).toBe(
      'on a day for which hours of Wren are written down on Left sill, opened, without times',
    )
  })

  test('may belong to a task', () => {
    const time = { kind: 'span', start: '2026-11-23T08:00:00Z', end: '2026-11-23T10:00:00Z' } as const
    const car = buildCar()
      .task('Strip')
      .log('strip', 'Joss', time, [onTask('Strip')])
    expect(match([cardPhoto('a', '2026-11-23T09:00:00')], [car])[0]).toMatchObject({
      sure: 'likely',
      fits: [{ target: onTask('Strip'), shows: 'work' }],
    })
  })

  test('shows the one layer that the gate still asks a photo of', () => {
    const car = buildCar().repair('Left sill', {
      layers: [
        { layerId: layerId('Left sill', 'outer'), name: 'outer sill', thicknessMm: 1.2, loadBearing: false },
      ],
      gates: { assessed: { asks: { ...noAsks, layerPhotos: 'graded' } } },
    })
    clocked(car, ['assessing', 'Wren'], ['Left sill', 'assessed'], ['08:00', '10:00'])
    expect(one('09:00:00', [car]).fits[0]).toMatchObject({
      shows: 'layer',
      layerId: layerId('Left sill', 'outer'),
    })
    const repair = car.car().repairs.get(repairId('Left sill'))!
    expect(lackedPhotos(car.car(), repair, 'assessed')).toEqual(['A photo of the outer sill'])
  })
})

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
    const correction = clockCorrection({ camera, date: '2026-11-24', time: '14:32' }, 'UTC', now)
    if (!correction.ok) throw new Error(correction.refusal.message)
    expect(correctionWords(correction.value)).toBe('The camera’s clock is 1 h 4 min slow.')
    expect(match(card, undefined, { correction: correction.value })).toEqual(match(photos(right, 0)))
    expect(match(card)).not.toEqual(match(photos(right, 0)))
  })

  test('cannot be put right by a photo without a date or by a time to come', () => {
    const camera = { local: '2026-11-24T14:32:10', offset: null }
    expect(clockCorrection({ camera, date: '2026-11-26', time: '14:32' }, 'UTC', now)).toMatchObject({
      ok: false,
      refusal: { code: 'bad-input', message: 'The time that was given is still to come.' },
    })
    const broken = { local: '2026-13-41T14:32:10', offset: null }
    expect(clockCorrection({ camera: broken, date: '2026-11-24', time: '14:32' }, 'UTC', now).ok).toBe(false)
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
          const correction = clockCorrection({ camera: camera!, date, time }, london, now)
          if (!correction.ok) throw new Error(correction.refusal.message)
          const options = { zone: london }
          expect(match(off, [car], { ...options, correction: correction.value })).toEqual(
            match(good, [car], options),
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
    match([cardPhoto('a', local, offset)], [car], { zone: 'Europe/London' })[0]!

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
    const [found] = match([cardPhoto('a', '2026-03-29T01:30:00')], [early], { zone: 'Europe/London' })
    expect(found).toMatchObject({
      taken: Date.parse('2026-03-29T01:00:00Z'),
      says: '01:30 was skipped on Sun 29 Mar, when the clocks went forward.',
    })
  })
})
