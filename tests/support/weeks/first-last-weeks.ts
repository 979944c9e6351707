import { commandIdSchema, reportIdSchema } from '../../../domain/ids.ts'
import { buildCar, type CarBuilder, onGate, onTask, repairId, visitId } from '../car-builder.ts'
import { repairPlan, slug } from '../plans.ts'
import { carWith, expecting, grade, hoursOn, setStatus, story, type WeekStory } from './week-acts.ts'

const arrived = (over: Parameters<CarBuilder['visit']>[1] = {}): CarBuilder => {
  const facts = buildCar()
    .at('2026-11-24T09:00')
    .visit('second', { status: 'agreed', ...over })
  return facts
}
const ofSecond = { visitId: visitId('second') }

/** The first weeks of a visit, and its last ones. */
export const firstWeeks = (): readonly WeekStory[] => [
  story('arrived, nothing listed', arrived({ promised: null }), ofSecond),
  story(
    'arrived with one repair',
    arrived({ promised: '2027-02-26' }).repair('Bonnet landing panel'),
    ofSecond,
  ),
  story(
    'arrived with an estimate to accept',
    (() => {
      const car = arrived({ promised: '2027-03-12' })
      for (const name of ['Sill, left', 'Sill, right', 'A-post foot, right'])
        car
          .repair(name)
          .estimate(onGate(name, 'opened'), 3, { accepted: false })
          .estimate(onGate(name, 'fabricated'), 8, { accepted: false })
      return car
    })(),
    ofSecond,
  ),
  story(
    'arrived with an estimate of many repairs',
    (() => {
      const car = arrived({ promised: null })
      for (let count = 1; count <= 9; count += 1)
        car
          .repair(`Floor section ${count}`)
          .estimate(onGate(`Floor section ${count}`, 'opened'), 1.5, { accepted: false })
      return car.task('Strip').estimate(onTask('Strip'), 6, { accepted: false })
    })(),
    ofSecond,
  ),
  story(
    'arrived and opened at once',
    (() => {
      const car = arrived({ status: 'in work' }).repair('Spare-wheel well').agree('Spare-wheel well')
      car.at('2026-11-26T09:00').passTo('Spare-wheel well', 'opened')
      return hoursOn(car, 'Spare-wheel well', 'opened', 3.5, 'Wren', '2026-11-26')
    })(),
    { ...ofSecond, expected: expecting({ before: null }) },
  ),
  story(
    'came back under warranty',
    arrived({ kind: 'warranty', status: 'in work', promised: null })
      .add('repairAdded', {
        repairId: repairId('Door skin, left'),
        type: null,
        plan: repairPlan('Door skin, left'),
        payer: 'workshop',
      })
      .estimate(onGate('Door skin, left', 'opened'), 2, { payer: 'workshop' }),
    ofSecond,
  ),
]

export const lastWeeks = (): readonly WeekStory[] => [
  story(
    'finished this week',
    (() => {
      const car = carWith('Boot floor')
        .at('2026-11-18T09:00')
        .passTo('Boot floor', 'welded')
        .at('2026-11-25T09:00')
        .passTo('Boot floor', 'painted')
      return setStatus(hoursOn(car, 'Boot floor', 'painted', 4, 'Ines').at('2026-11-26T15:00'), 'finished')
    })(),
    { expected: expecting() },
  ),
  story(
    'handed over this week',
    (() => {
      const car = carWith('Boot floor').at('2026-11-18T09:00').passTo('Boot floor', 'painted')
      return setStatus(setStatus(car, 'finished').at('2026-11-27T11:00'), 'delivered')
    })(),
  ),
  story(
    'finished and waiting to be fetched',
    setStatus(carWith('Boot floor').at('2026-11-18T09:00').passTo('Boot floor', 'painted'), 'finished'),
  ),
  story(
    'finished and handed over on one day',
    (() => {
      const car = carWith('Boot floor').at('2026-11-25T09:00').passTo('Boot floor', 'painted')
      return setStatus(setStatus(car, 'finished'), 'delivered')
    })(),
  ),
  story(
    'a correction of what was issued',
    (() => {
      const car = carWith('Scuttle').passTo('Scuttle', 'opened')
      grade(car, 'Scuttle', 'inner', { grade: 'gone', decision: 'replace' })
      return issue(issue(car, '2026-W47'), '2026-W48')
    })(),
    { expected: expecting() },
  ),
]

const issue = (car: CarBuilder, week: string): CarBuilder =>
  car.add('reportIssued', {
    reportId: reportIdSchema.parse(`report-${slug(week)}`),
    visitId: visitId('first'),
    week,
    sha256: 'a'.repeat(64),
    page: null,
    head: 'b'.repeat(64),
    words: '',
    photos: [],
    crops: [],
    names: false,
    dates: 'range',
    language: 'en',
    title: commandIdSchema.parse(`title-${slug(week)}`),
  })
