import { describe, expect, test } from 'vitest'
import { ASKS_NOTHING } from '../../../domain/catalogue/type-plan.ts'
import { reasonWords } from '../../../domain/import/photo-match.ts'
import type { PhotoMatch } from '../../../domain/import/photo-match-shapes.ts'
import { lackedPhotos } from '../../../domain/import/photo-work.ts'
import { cardPhoto, clocked, dayOnTheBootFloor, matchCard } from '../../support/card.ts'
import {
  buildCar,
  entryId,
  onGate,
  onTask,
  personId,
  repairId,
  type CarBuilder,
} from '../../support/car-builder.ts'
import { layerId } from '../../support/plans.ts'

const one = (time: string, cars?: readonly CarBuilder[]): PhotoMatch =>
  matchCard([cardPhoto('a', `2026-11-24T${time}`)], cars)[0]!

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
    expect(matchCard([at], undefined, { by: 'Joss' })[0]).toMatchObject({
      sure: 'certain',
      fits: [{ target: fabricated }],
    })
    expect(matchCard([at], undefined, { by: 'Wren' })[0]).toMatchObject({
      sure: 'certain',
      fits: [{ target: onGate('Left sill', 'opened') }],
    })
    expect(matchCard([at], undefined, { by: 'Ines' })[0]?.sure).toBe('none')
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
    const says = (local: string | null) => matchCard([cardPhoto('a', local)])[0]
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
    const dayBefore = clocked(
      dayOnTheBootFloor(),
      ['early', 'Wren'],
      ['Boot floor, right', 'assessed'],
      ['09:15', '09:38'],
      '2026-11-23',
    )
    expect(matchCard([cardPhoto('a', '2026-11-23T09:35:00')], [dayBefore])[0]?.fits[0]?.doesNotCount).toBe(
      'It will not count for assessed: opened was passed later, on Tue 24 Nov at 09:40.',
    )
  })

  test('of a day before the car came is told so, though hours with a wrong year were entered and corrected', () => {
    const time = { kind: 'day', date: '2019-11-24', hours: 3 } as const
    const car = dayOnTheBootFloor().log('mistyped', 'Wren', time, [onGate('Left sill', 'opened')])
    car.add('timeCorrected', {
      entryId: entryId('right'),
      replaces: entryId('mistyped'),
      personId: personId('Wren'),
      on: { kind: 'work', targets: [onGate('Left sill', 'opened')] },
      cause: null,
      time: { ...time, date: '2026-11-24' },
      shares: null,
      reason: 'mistyped year',
    })
    expect(matchCard([cardPhoto('a', '2019-11-25T14:32:10')], [car])[0]?.says).toBe(
      'It was taken on Mon 25 Nov 2019 at 14:32, before this car had come.',
    )
  })

  test('of hours without times is likely when they are the only ones of that day', () => {
    const time = { kind: 'day', date: '2026-11-23', hours: 3 } as const
    const car = dayOnTheBootFloor().log('paper', 'Wren', time, [onGate('Left sill', 'opened')])
    const [found] = matchCard([cardPhoto('a', '2026-11-23T10:00:00')], [car])
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
    expect(matchCard([cardPhoto('a', '2026-11-23T09:00:00')], [car])[0]).toMatchObject({
      sure: 'likely',
      fits: [{ target: onTask('Strip'), shows: 'work' }],
    })
  })

  test('shows the one layer that the gate still asks a photo of', () => {
    const car = buildCar().repair('Left sill', {
      layers: [
        { layerId: layerId('Left sill', 'outer'), name: 'outer sill', thicknessMm: 1.2, loadBearing: false },
      ],
      gates: { assessed: { asks: { ...ASKS_NOTHING, layerPhotos: 'graded' } } },
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
