import { describe, expect, it } from 'vitest'
import type { CarState } from '../../../domain/car.ts'
import { daySheetView } from '../../../domain/views/day-sheet-view.ts'
import { buildCar, entryId, onGate, personId } from '../../support/car-builder.ts'
import { buildWorkshop, nameOf } from '../../support/workshop-builder.ts'

const workshop = buildWorkshop()
/** Wednesday of week 48. */
const now = Date.parse('2026-11-25T10:40:00Z')

const sheetOf = (cars: readonly CarState[], person = 'Joss') =>
  daySheetView({ personId: personId(person), cars, now, workshop, nameOf, plan: null })
describe('the hours of the person', () => {
  const car = () =>
    buildCar()
      .repair('Boot floor')
      .log('sun', 'Joss', { kind: 'day', date: '2026-11-22', hours: 8 }, [onGate('Boot floor', 'opened')])
      .log('mon', 'Joss', { kind: 'day', date: '2026-11-23', hours: 7.5 }, [onGate('Boot floor', 'opened')])
      .log('other', 'Wren', { kind: 'day', date: '2026-11-23', hours: 6 }, [onGate('Boot floor', 'opened')])
      .clock('wed', 'Joss', '2026-11-25T08:10', [onGate('Boot floor', 'opened')])

  it('are those of today and of this ISO week, with the running clock and the workshop itself', () => {
    const withSweeping = buildWorkshop((add) =>
      add('timeLogged', {
        entryId: entryId('sweep'),
        personId: personId('Joss'),
        on: { kind: 'workshop', what: 'sweeping' },
        hotWork: false,
        cause: null,
        time: { kind: 'day', date: '2026-11-25', hours: 0.5 },
        shares: null,
        note: '',
        watchMinutes: null,
      }),
    )
    const sheet = daySheetView({
      personId: personId('Joss'),
      cars: [car().car()],
      now,
      workshop: withSweeping,
      nameOf,
      plan: null,
    })
    expect(sheet.hoursToday).toBe(3)
    expect(sheet.hoursThisWeek).toBe(10.5)
    expect(sheet.entries.map(({ what, hours, running }) => [what, hours, running])).toEqual([
      ['Boot floor: opened', 2.5, true],
      ['sweeping', 0.5, false],
      ['Boot floor: opened', 7.5, false],
    ])
    expect(sheet.dayEnds).toBe(Date.parse('2026-11-25T16:30:00Z'))
  })

  it('keep a clock that was left running in an earlier week, and ask for those to be confirmed', () => {
    const left = buildCar()
      .repair('Boot floor')
      .clock('old', 'Joss', '2026-11-19T14:30', [onGate('Boot floor', 'opened')])
    expect(sheetOf([left.car()])).toMatchObject({
      hoursThisWeek: 0,
      clock: { pastDayEnd: true, countsTo: Date.parse('2026-11-19T16:30:00Z') },
      toConfirm: [],
    })
    left.add('clockStopped', {
      entryId: entryId('old'),
      end: '2026-11-25T08:00:00Z',
      countsTo: '2026-11-19T16:30:00Z',
      overtime: false,
      shares: null,
      watchMinutes: null,
    })
    expect(sheetOf([left.car()])).toMatchObject({ clock: null, toConfirm: [{ what: 'Boot floor: opened' }] })
  })
})
