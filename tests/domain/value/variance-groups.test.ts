import { describe, expect, it } from 'vitest'
import { plannedRows } from '../../../domain/value/planned-rows.ts'
import {
  groupRows,
  type Grouping,
  mergeGroups,
  NOT_YET,
  varianceIndices,
} from '../../../domain/value/variance-groups.ts'
import { noFigures, type VarianceFigures } from '../../../domain/value/variance-row.ts'
import {
  buildCar,
  type CarBuilder,
  onGate,
  onTask,
  personId,
  repairId,
  visitId,
} from '../../support/car-builder.ts'
import { varianceSums } from '../../support/variance-sums.ts'
import { buildWorkshop } from '../../support/workshop-builder.ts'

const workshop = buildWorkshop()
const context = { at: Date.parse('2026-12-02T10:40:00Z'), workshop }

const span = (start: string, end: string) => ({
  kind: 'span' as const,
  start: `${start}:00Z`,
  end: `${end}:00Z`,
})
const day = (date: string, hours: number) => ({ kind: 'day' as const, date, hours })

const groupsOf = (car: CarBuilder, grouping: Grouping) =>
  new Map(varianceSums([car.car()], context).groups[grouping].map((group) => [group.key, group]))
/** One figure by key, those that are not 0. */
const figure = (car: CarBuilder, grouping: Grouping, name: keyof VarianceFigures) =>
  Object.fromEntries(
    [...groupsOf(car, grouping)]
      .map(([key, { figures }]) => [key, figures[name]])
      .filter(([, value]) => value !== 0),
  )

/**
 * 2 h on each of eight gates, accepted in November. Opened takes Joss 2 h and Wren 1 h and is passed in November, assessed
 * is passed in December without hours, on fabricated Wren has spent 1 h in December.
 */
const carInWork = () =>
  buildCar()
    .repair('Boot floor')
    .agree('Boot floor', 2)
    .log('a', 'Joss', day('2026-11-23', 2), [onGate('Boot floor', 'opened')])
    .log('b', 'Wren', day('2026-11-23', 1), [onGate('Boot floor', 'opened')])
    .at('2026-11-24T10:00')
    .pass('Boot floor', 'opened')
    .by('Ines')
    .at('2026-12-01T10:00')
    .pass('Boot floor', 'assessed')
    .log('c', 'Wren', day('2026-12-01', 1), [onGate('Boot floor', 'fabricated')])

describe('hours by month', () => {
  it('are authorised when accepted, earned when the gate is done, spent when worked', () => {
    const car = carInWork()
    expect(figure(car, 'month', 'authorised')).toEqual({ '2026-11': 16 })
    expect(figure(car, 'month', 'earned')).toEqual({ '2026-11': 2, '2026-12': 2 })
    expect(figure(car, 'month', 'spent')).toEqual({ '2026-11': 3, '2026-12': 1 })
  })

  it('leave the authorised ones in the month in which they are given back', () => {
    const car = carInWork().notNeeded('Boot floor', 'fabricated')
    expect(figure(car, 'month', 'authorised')).toEqual({ '2026-11': 16, '2026-12': -2 })
    expect(figure(car, 'month', 'givenBack')).toEqual({ '2026-12': 2 })
  })

  it('that wait for their payer stand in no month', () => {
    const car = carInWork().task('Cavity wax').estimate(onTask('Cavity wax'), 4, { accepted: false })
    expect(figure(car, 'month', 'waiting')).toEqual({ [NOT_YET]: 4 })
  })
})

describe('hours by person', () => {
  it('are earned in proportion to the hours on the gate, else by those who are named to have done it', () => {
    const earned = figure(carInWork(), 'person', 'earned')
    expect(earned[personId('Joss')]).toBeCloseTo(4 / 3, 9)
    expect(earned[personId('Wren')]).toBeCloseTo(2 / 3, 9)
    expect(earned[personId('Ines')]).toBe(2)
  })

  it('of work that nobody has done stand apart', () => {
    // Fabricated is Wren's, who works on it; the five gates after it are nobody's.
    expect(figure(carInWork(), 'person', 'authorised')).toMatchObject({ [NOT_YET]: 10 })
  })

  it('of rework earn nothing a second time', () => {
    const car = carInWork().log('r', 'Mara', day('2026-12-01', 3), [onGate('Boot floor', 'opened')], {
      cause: 'fit',
    })
    expect(figure(car, 'person', 'rework')).toEqual({ [personId('Mara')]: 3 })
    expect(figure(car, 'person', 'earned')[personId('Mara')]).toBeUndefined()
    expect([...groupsOf(car, 'gate').get('opened')!.causes]).toEqual([['fit', 3]])
  })
})

describe('hours by zone', () => {
  it('go by the side and place of the repair; tasks have none', () => {
    const car = buildCar()
      .repair('Sill', { zone: { side: 'left', place: 'middle' } })
      .agree('Sill', 1)
      .task('Cavity wax')
      .estimate(onTask('Cavity wax'), 4)
    expect(figure(car, 'zone', 'authorised')).toEqual({ 'left middle': 8, tasks: 4 })
  })
})

describe('hours expected at completion', () => {
  it('are those spent and those authorised that are not begun', () => {
    const car = buildCar()
      .repair('Boot floor')
      .agree('Boot floor', 2)
      .vary('Wheel well', [{ target: onGate('Boot floor', 'welded'), hours: 5 }])
      .decide('Wheel well', 'accepted')
      .log('a', 'Joss', day('2026-11-23', 3), [onGate('Boot floor', 'opened')])
      .pass('Boot floor', 'opened')
    expect(figure(car, 'gate', 'expected')).toMatchObject({ opened: 3, assessed: 2, welded: 7 })
  })

  it('go by what is said to be left on work begun', () => {
    const car = carInWork().add('leftSaid', { target: onGate('Boot floor', 'fabricated'), hours: 6 })
    expect(figure(car, 'gate', 'expected')).toMatchObject({ fabricated: 7 })
  })

  it('leave out what its payer has not accepted', () => {
    const car = buildCar()
      .repair('Boot floor')
      .estimate(onGate('Boot floor', 'opened'), 3, { accepted: false })
    expect(figure(car, 'gate', 'expected')).toEqual({})
  })
})

describe('hours on released holds', () => {
  const released = () =>
    buildCar()
      .repair('Boot floor')
      .agree('Boot floor', 2)
      .at('2026-11-24T10:00')
      .add('holdReleased', {
        repairId: repairId('Boot floor'),
        gate: 'primed',
        code: 'conditions',
        subject: '',
        reason: 'the booth is warm',
        ownHold: false,
      })
  const primed = onGate('Boot floor', 'primed')

  it('are those between the release and the passing of the gate', () => {
    // 09:00 to 12:00 with the release at 10:00: 2 h. The hour after the passing at 14:00 is rework.
    const car = released()
      .log('a', 'Joss', span('2026-11-24T09:00', '2026-11-24T12:00'), [primed])
      .at('2026-11-24T14:00')
      .pass('Boot floor', 'primed')
      .log('b', 'Joss', span('2026-11-24T15:00', '2026-11-24T16:00'), [primed], { cause: 'fit' })
    expect(figure(car, 'gate', 'onReleased')).toEqual({ primed: 2 })
  })

  it('go on while the gate is open, and stay when it is reopened', () => {
    const car = released().log('a', 'Joss', span('2026-11-24T10:30', '2026-11-24T12:00'), [primed])
    expect(figure(car, 'gate', 'onReleased')).toEqual({ primed: 1.5 })
    car
      .at('2026-11-24T14:00')
      .pass('Boot floor', 'primed')
      .at('2026-11-25T09:00')
      .reopen('Boot floor', 'primed')
    car.log('b', 'Joss', span('2026-11-25T10:00', '2026-11-25T11:00'), [primed])
    expect(figure(car, 'gate', 'onReleased')).toEqual({ primed: 1.5 })
  })

  it('count a day without times from the day of the release on', () => {
    const car = released()
      .log('a', 'Joss', day('2026-11-23', 1), [primed])
      .log('b', 'Joss', day('2026-11-24', 2), [primed])
    expect(figure(car, 'gate', 'onReleased')).toEqual({ primed: 2 })
  })
})

describe('indices of a sum', () => {
  it('are the published ones: PV 40000, EV 35000, AC 36000', () => {
    // Tests of the R package PRA: SPI .875, CPI .9722222, SV -5000, CV -1000.
    const figures = { ...noFigures, earned: 35_000, earnedOfPlanned: 35_000, planned: 40_000, spent: 36_000 }
    expect(varianceIndices(figures)).toEqual({
      costVariance: -1000,
      costIndex: expect.closeTo(0.9722222, 7),
      scheduleVariance: -5000,
      scheduleIndex: 0.875,
    })
  })

  it('of the schedule leave out what was earned of work that has no planned value', () => {
    const figures = { ...noFigures, earned: 45_000, earnedOfPlanned: 35_000, planned: 40_000, spent: 36_000 }
    expect(varianceIndices(figures)).toMatchObject({
      costVariance: 9000,
      scheduleVariance: -5000,
      scheduleIndex: 0.875,
    })
  })

  it('are undefined where nothing is spent or planned', () => {
    expect(varianceIndices({ ...noFigures, earned: 3 })).toEqual({
      costVariance: 3,
      costIndex: null,
      scheduleVariance: null,
      scheduleIndex: null,
    })
  })
})

describe('planned hours in the groups', () => {
  it('are those up to today, beside what was earned of the same work', () => {
    const car = carInWork().car()
    const visit = car.visits.get(visitId('first'))!
    const planned = [
      { target: onGate('Boot floor', 'opened'), date: '2026-11-24', hours: 2 },
      { target: onGate('Boot floor', 'fabricated'), date: '2026-12-02', hours: 1.5 },
      { target: onGate('Boot floor', 'fabricated'), date: '2026-12-03', hours: 0.5 },
    ]
    const groups = groupRows(plannedRows(car, visit, planned, context), 'gate')
    expect(groups.map(({ key, figures }) => [key, figures.planned, figures.earnedOfPlanned])).toEqual([
      ['opened', 2, 2],
      ['fabricated', 1.5, 0],
    ])
  })
})

describe('groups of several cars', () => {
  it('are added up by key, causes too', () => {
    const car = () =>
      carInWork().log('r', 'Mara', day('2026-12-01', 3), [onGate('Boot floor', 'opened')], { cause: 'fit' })
    const opened = mergeGroups(
      [car(), car()].flatMap((each) => varianceSums([each.car()], context).groups.gate),
    ).find(({ key }) => key === 'opened')
    expect(opened).toMatchObject({ figures: { authorised: 4, earned: 4, spent: 12, rework: 6 } })
    expect([...opened!.causes]).toEqual([['fit', 6]])
  })
})
