import { describe, expect, it } from 'vitest'
import { attentionGroups, carAttention } from '../../../domain/views/attention-view.ts'
import { createViewContext } from '../../../domain/views/view-context.ts'
import {
  buildCar,
  entryId,
  onGate,
  onTask,
  personId,
  visitId,
  type CarBuilder,
} from '../../support/car-builder.ts'
import { buildWorkshop, nameOf } from '../../support/workshop-builder.ts'

const workshop = buildWorkshop()
/** Wednesday of week 48. */
const now = Date.parse('2026-11-25T10:40:00Z')
const context = createViewContext({ now, workshop, nameOf })

const boot = onGate('Boot floor', 'opened')
const day = (date: string, hours: number) => ({ kind: 'day' as const, date, hours })
const dunmere = () => buildCar().repair('Boot floor').at('2026-11-20T08:00')
const said = (car: CarBuilder) =>
  carAttention(car.car(), context).flatMap(({ title, lines }) =>
    lines.map(({ words, todo, way }) => [title, words, todo, way.to === 'sheet' ? way.sheet : way.to]),
  )

describe('what needs somebody', () => {
  it('is nothing where all is as agreed', () => {
    expect(attentionGroups([dunmere().agree('Boot floor').car()], context)).toEqual([])
  })

  it('says what is so, what to do, since when, and leads there', () => {
    const car = dunmere()
      .estimate(boot, 4, { accepted: false })
      .log('a', 'Joss', day('2026-11-23', 1.5), [boot])
    expect(carAttention(car.car(), context)).toEqual([
      {
        title: 'Hours that nobody has authorised',
        lines: [
          {
            key: 'car-dunmere not authorised repair-boot-floor/opened',
            carName: 'Dunmere Saloon',
            words: '1.5 h on boot floor: opened, and the owner has not accepted its estimate.',
            todo: "Get the owner's answer, or stop the work.",
            since: '2026-11-23',
            way: { to: 'sheet', carId: 'car-dunmere', sheet: 'estimate' },
          },
        ],
      },
    ])
  })

  it('leads to the decisions where a variation is open or hours have no estimate', () => {
    const car = dunmere()
      .log('a', 'Joss', day('2026-11-23', 1), [boot])
      .vary('Corner', [{ target: onGate('Boot floor', 'assessed'), hours: 3 }])
      .log('b', 'Joss', day('2026-11-23', 2), [onGate('Boot floor', 'assessed')])
    expect(said(car)).toEqual([
      [
        'Hours that nobody has authorised',
        "2.0 h on boot floor: assessed, while 'Corner' waits for the owner's answer.",
        "Get the owner's answer, or stop the work.",
        'decisions',
      ],
      [
        'Hours that nobody has authorised',
        '1.0 h on boot floor: opened, without an estimate.',
        'Put these hours to a payer as a variation, or move them to where they belong.',
        'decisions',
      ],
    ])
    car.decide('Corner', 'declined')
    expect(said(car)[0]![1]).toBe("2.0 h on boot floor: assessed, and the owner declined 'Corner'.")
  })

  it('names where a car goes beyond, and the mark that a gate has passed', () => {
    const car = dunmere().estimate(boot, 2).log('a', 'Joss', day('2026-11-23', 3), [boot])
    car.at('2026-11-23T17:00').add('leftSaid', { target: boot, hours: 1 })
    expect(said(car)).toEqual([
      [
        'More hours than authorised',
        'The whole car: 4.0 h expected, 2.0 h authorised, 2.0 h beyond; most in boot floor (2.0 h).',
        'Ask the payer for the further hours, or take work out.',
        'hours',
      ],
      [
        'Past the 80 % mark',
        'Boot floor: opened: 3.0 h spent, 1.0 h said to be left; four of five stay under 2.0 h.',
        'Ask what went wrong, and whether more must be agreed.',
        'repair',
      ],
    ])
  })

  it('tells rework with its cause from hours that ask for one, and leads to who logged them', () => {
    const car = dunmere()
      .task('Strip')
      .agree('Boot floor', 9)
      .estimate(onTask('Strip'), 9)
      .at('2026-11-23T12:00')
      .pass('Boot floor', 'opened')
      .log('a', 'Joss', day('2026-11-24', 1), [boot], { cause: 'fit' })
    expect(said(car)).toEqual([
      [
        'Hours on finished work',
        '1.0 h on boot floor: opened, after it was passed; rework: fit.',
        'Reopen it if it must be checked and signed again.',
        'repair',
      ],
    ])
    car.log('b', 'Wren', day('2026-11-25', 1), [boot])
    expect(said(car)).toEqual([
      [
        'Hours on finished work',
        '2.0 h on boot floor: opened, after it was passed and without a cause.',
        'Ask Wren, and correct the entry with the cause.',
        'day sheet',
      ],
    ])
  })

  it('names clocks on the workshop itself too', () => {
    const swept = buildWorkshop((add) =>
      add('clockStarted', {
        entryId: entryId('sweep'),
        personId: personId('Joss'),
        on: { kind: 'workshop', what: 'Sweeping' },
        hotWork: false,
        cause: null,
        start: '2026-11-24T15:00:00Z',
      }),
    )
    const own = createViewContext({ now, workshop: swept, nameOf })
    expect(attentionGroups([], own)).toMatchObject([
      {
        title: 'Clocks past the end of the day',
        lines: [
          { carName: 'Harrow Lane', words: "Joss's clock still runs on sweeping; it counts to 16:30." },
        ],
      },
    ])
  })

  it('stands in groups by kind, worst first over all cars', () => {
    const other = buildCar({ name: 'Velloran' }).repair('Boot floor').at('2026-11-20T08:00')
    other.log('a', 'Joss', day('2026-11-23', 4), [boot])
    const car = dunmere()
      .log('a', 'Wren', day('2026-11-23', 1), [boot])
      .clock('b', 'Wren', '2026-11-24T15:00', [boot])
    const groups = attentionGroups([car.car(), other.car()], context)
    expect(groups.map(({ lines }) => lines.map(({ carName }) => carName))).toEqual([
      ['Velloran', 'Dunmere Saloon'],
      ['Dunmere Saloon'],
    ])
    other.add('visitStatusSet', { visitId: visitId('first'), status: 'delivered', reason: '' })
    expect(attentionGroups([other.car()], context)).toEqual([])
  })
})
