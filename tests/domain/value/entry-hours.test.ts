import { describe, expect, it } from 'vitest'
import { entryHours, entryPieces, entryShares } from '../../../domain/value/entry-hours.ts'
import { carHours, noHours, targetHours } from '../../../domain/value/hours.ts'
import { buildCar, type CarBuilder, entryId, onGate, personId, visitId } from '../../support/car-builder.ts'
import { buildWorkshop } from '../../support/workshop-builder.ts'

const workshop = buildWorkshop()
const at = Date.parse('2026-11-25T10:40:00Z')
const context = { at, workshop }
const first = visitId('first')

/** Monday to Friday of week 48; 25 Nov 2026 is a Wednesday. */
const day = (date: string, hours: number) => ({ kind: 'day' as const, date, hours })
const span = (start: string, end: string) => ({
  kind: 'span' as const,
  start: `${start}:00Z`,
  end: `${end}:00Z`,
})

const hoursOf = (builder: CarBuilder, id: string, moment = at): number =>
  entryHours(builder.car().entries.get(entryId(id))!, { at: moment, workshop })

const gateHours = (builder: CarBuilder, gate: Parameters<typeof onGate>[1], repair = 'Boot floor') =>
  targetHours(builder.car(), first, onGate(repair, gate), context)

describe('the hours of an entry', () => {
  const bootFloor = [onGate('Boot floor', 'fabricated')]
  const withRepair = () => buildCar().repair('Boot floor')

  it('are the length of its span', () => {
    const car = withRepair().log('a', 'Joss', span('2026-11-23T08:00', '2026-11-23T11:30'), bootFloor)
    expect(hoursOf(car, 'a')).toBe(3.5)
  })

  it('are what was written for its day', () => {
    const car = withRepair().log('a', 'Joss', day('2026-11-23', 6.25), bootFloor)
    expect(hoursOf(car, 'a')).toBe(6.25)
  })

  it('run on with a clock until now', () => {
    const car = withRepair().at('2026-11-25T08:00').clock('a', 'Joss', '2026-11-25T08:10', bootFloor)
    expect(hoursOf(car, 'a')).toBe(2.5)
  })

  it('stop at the end of the day of the person whose clock was left running', () => {
    const car = withRepair().clock('a', 'Joss', '2026-11-24T14:30', bootFloor)
    expect(hoursOf(car, 'a')).toBe(2)
  })

  it('stop at the end of the own week of a person who works other hours', () => {
    const early = Array.from({ length: 7 }, () => [{ from: '06:00', to: '15:00' }])
    const other = buildWorkshop((add) =>
      add('personChanged', {
        personId: personId('Joss'),
        roles: ['technician'],
        skills: [],
        week: early,
        absences: [],
        active: true,
      }),
    )
    const car = withRepair().clock('a', 'Joss', '2026-11-24T14:30', bootFloor)
    expect(entryHours(car.car().entries.get(entryId('a'))!, { at, workshop: other })).toBe(0.5)
  })

  it.each([
    ['on a Saturday', '2026-11-21T09:00'],
    ['after the end of the day', '2026-11-24T18:00'],
  ])('of a clock started %s are none until they are confirmed', (_, start) => {
    expect(hoursOf(withRepair().clock('a', 'Joss', start, bootFloor), 'a')).toBe(0)
  })

  it('count only to the end of the day for a clock stopped late, and wholly once that is confirmed', () => {
    const stopped = withRepair()
      .clock('a', 'Joss', '2026-11-24T14:30', bootFloor)
      .add('clockStopped', {
        entryId: entryId('a'),
        end: '2026-11-24T19:00:00Z',
        countsTo: '2026-11-24T16:30:00Z',
        overtime: false,
        shares: null,
        watchMinutes: null,
      })
    expect(hoursOf(stopped, 'a')).toBe(2)
    stopped.add('clockConfirmed', { entryId: entryId('a'), end: '2026-11-24T18:30:00Z', reason: '' })
    expect(hoursOf(stopped, 'a')).toBe(4)
  })

  it('count nowhere once they are corrected, and the new entry counts in their place', () => {
    const car = withRepair()
      .agree('Boot floor')
      .log('a', 'Joss', day('2026-11-23', 6), bootFloor)
      .add('timeCorrected', {
        entryId: entryId('b'),
        replaces: entryId('a'),
        personId: personId('Joss'),
        on: { kind: 'work', targets: bootFloor },
        cause: null,
        time: day('2026-11-23', 4),
        shares: null,
        reason: 'lunch was not taken off',
      })
    expect(hoursOf(car, 'a')).toBe(0)
    expect(gateHours(car, 'fabricated').spent).toBe(4)
  })

  it('count nowhere once they are voided', () => {
    const car = withRepair().log('a', 'Joss', day('2026-11-23', 6), bootFloor)
    car.add('factVoided', { number: car.facts().at(-1)!.number, reason: 'that was the other car' })
    expect(carHours(car.car(), first, context)).toEqual(noHours)
  })

  it('on the workshop itself belong to no car', () => {
    const car = withRepair().add('timeLogged', {
      entryId: entryId('a'),
      personId: personId('Joss'),
      on: { kind: 'workshop', what: 'sweeping' },
      hotWork: false,
      cause: null,
      time: day('2026-11-23', 1),
      shares: null,
      note: '',
      watchMinutes: null,
    })
    expect(entryPieces(car.car(), car.car().entries.get(entryId('a'))!, context)).toEqual([])
    expect(carHours(car.car(), first, context)).toEqual(noHours)
  })
})

describe('hours by hand on the day on which their gate was passed', () => {
  const opened = [onGate('Boot floor', 'opened')]
  const passed = () => buildCar().repair('Boot floor').at('2026-11-24T12:00').pass('Boot floor', 'opened')
  const reworkOf = (builder: CarBuilder) => {
    const car = builder.car()
    return entryPieces(car, car.entries.get(entryId('a'))!, context).map(({ rework }) => rework)
  }

  it('are of the work before it, unless a cause of rework is said', () => {
    expect(reworkOf(passed().log('a', 'Joss', day('2026-11-24', 1), opened))).toEqual([null])
    const again = passed().log('a', 'Joss', day('2026-11-24', 1), opened, { cause: 'fit' })
    expect(reworkOf(again)).toEqual(['fit'])
  })
})

describe('one clock on several targets', () => {
  const targets = [onGate('Boot floor', 'primed'), onGate('Scuttle', 'primed')]
  const two = () => buildCar().repair('Boot floor').repair('Scuttle')
  const sharesOf = (builder: CarBuilder) =>
    entryShares(builder.car(), builder.car().entries.get(entryId('a'))!)

  it('is shared as the person says', () => {
    const car = two().log('a', 'Joss', day('2026-11-23', 4), targets, { shares: [0.75, 0.25] })
    expect(gateHours(car, 'primed').spent).toBe(3)
    expect(gateHours(car, 'primed', 'Scuttle').spent).toBe(1)
  })

  it('is shared by the estimates when the person says nothing', () => {
    const car = two()
      .estimate(onGate('Boot floor', 'primed'), 3)
      .estimate(onGate('Scuttle', 'primed'), 1, { accepted: false })
      .log('a', 'Joss', day('2026-11-23', 4), targets)
    expect(sharesOf(car)).toEqual([0.75, 0.25])
  })

  it('is shared by the plan where a target has no line yet', () => {
    const car = buildCar()
      .repair('Boot floor')
      .repair('Scuttle', { gates: { primed: { hours: { shortest: 1, likely: 6, longest: 11 } } } })
      .log('a', 'Joss', day('2026-11-23', 4), targets)
    // (1 + 4 x 2 + 3) / 6 = 2 h against (1 + 4 x 6 + 11) / 6 = 6 h.
    expect(sharesOf(car)).toEqual([0.25, 0.75])
  })

  it('is shared equally where nothing is estimated', () => {
    const none = { hours: { shortest: 0, likely: 0, longest: 0 } }
    const car = buildCar()
      .repair('Boot floor', { gates: { primed: none } })
      .repair('Scuttle', { gates: { primed: none } })
      .log('a', 'Joss', day('2026-11-23', 4), targets)
    expect(sharesOf(car)).toEqual([0.5, 0.5])
  })

  it('loses no hours to shares that were rounded', () => {
    const three = [...targets, onGate('Boot floor', 'sealed')]
    const car = two().log('a', 'Joss', day('2026-11-23', 4), three, { shares: [0.33, 0.33, 0.33] })
    expect(carHours(car.car(), first, context).spent).toBeCloseTo(4, 12)
  })
})
