import { ASKS_NOTHING } from '../../../domain/catalogue/type-plan.ts'
import { GATES } from '../../../domain/gates.ts'
import { onTask, personId, repairId } from '../car-builder.ts'
import { choicesOf } from '../owner-report.ts'
import {
  bringBack,
  carWith,
  expecting,
  find,
  finish,
  grade,
  hoursOn,
  hoursOnTask,
  likely,
  sendAway,
  shoot,
  sign,
  story,
  type WeekStory,
} from './week-acts.ts'

const many = ['Sill, left', 'Inner arch, left', 'Floor edge, left', 'A-post foot, left', 'Scuttle']

/** Weeks in which things were done, one of each and many of each. */
export const busyWeeks = (): readonly WeekStory[] => [
  story(
    'one gate, one hour',
    hoursOn(carWith('Boot floor').passTo('Boot floor', 'opened'), 'Boot floor', 'opened', 1),
    { expected: expecting({ hours: likely(16, 19) }) },
  ),
  story(
    'opened, judged and made',
    (() => {
      const car = carWith('Boot floor', 'Sill, left').passTo('Boot floor', 'opened')
      shoot(car, 'a1', 'Boot floor', 'opened', 'before', 'Boot floor before cutting')
      grade(car, 'Boot floor', 'inner', { grade: 'pitted', remainingMm: 0.75 })
      grade(car, 'Boot floor', 'closing', { grade: 'surface', decision: 'treat' })
      car.at('2026-11-25T09:00').passTo('Boot floor', 'fabricated')
      shoot(car, 'a2', 'Boot floor', 'fabricated', 'work', 'New edge let in.')
      hoursOn(car, 'Boot floor', 'opened', 2)
      return hoursOn(car, 'Boot floor', 'fabricated', 6.5)
    })(),
    { expected: expecting({ hours: likely(31, 36) }) },
  ),
  story(
    'many gates on many repairs',
    (() => {
      const car = carWith(...many)
      many.forEach((name, index) => {
        car.at(`2026-11-${23 + index}T09:00`).passTo(name, GATES[index] ?? 'opened')
        hoursOn(car, name, 'opened', index + 0.5, index % 2 === 0 ? 'Joss' : 'Wren', `2026-11-${23 + index}`)
      })
      return car
    })(),
    {
      expected: expecting({
        hours: likely(96, 117),
        finish: finish('2027-01-20', '2027-02-03'),
        before: finish('2027-01-22', '2027-02-04', 0),
      }),
    },
  ),
  story(
    'closed, painted and finished',
    (() => {
      const car = carWith('Boot floor', 'Wing, right')
        .at('2026-11-18T09:00')
        .passTo('Boot floor', 'trial-fitted')
        .passTo('Wing, right', 'welded')
      return car.at('2026-11-24T10:00').passTo('Boot floor', 'welded').passTo('Wing, right', 'painted')
    })(),
  ),
  story(
    'one task',
    sign(
      hoursOnTask(carWith('Boot floor').task('Strip').estimate(onTask('Strip'), 6), 'Strip', 5),
      'Strip',
      'Ines',
    ),
  ),
  story(
    'tasks done and tasks that go on',
    (() => {
      const car = carWith('Boot floor')
      for (const name of ['Strip', 'Mount on the jig', 'Paint the shell', 'Cavity wax']) {
        car.task(name).estimate(onTask(name), 4)
        hoursOnTask(car, name, 2.25)
      }
      sign(car, 'Strip', 'Ines')
      return sign(car, 'Mount on the jig', 'Ines', 'Joss')
    })(),
  ),
  story(
    'worked and nothing passed',
    hoursOn(
      hoursOn(carWith('Boot floor'), 'Boot floor', 'opened', 5.5),
      'Boot floor',
      'opened',
      2,
      'Wren',
      '2026-11-25',
    ),
  ),
  story(
    'the technician is named',
    hoursOn(
      carWith('Boot floor').by('Wren').passTo('Boot floor', 'opened'),
      'Boot floor',
      'opened',
      2,
      'Wren',
    ),
    { choices: choicesOf({ names: true }) },
  ),
  story(
    'several technicians are named',
    (() => {
      const car = carWith('Boot floor', 'Scuttle').task('Strip').by('Wren').passTo('Boot floor', 'sealed')
      hoursOn(car, 'Boot floor', 'sealed', 3, 'Joss')
      hoursOn(car, 'Boot floor', 'sealed', 2, 'Ines')
      hoursOn(car, 'Scuttle', 'opened', 2, 'Joss')
      hoursOnTask(car, 'Strip', 3)
      return sign(car, 'Strip', 'Ines', 'Joss')
    })(),
    { choices: choicesOf({ names: true }), expected: expecting() },
  ),
  story(
    'a gate that is not needed, and a coat for the time being',
    (() => {
      const car = carWith('Front valance')
        .at('2026-11-18T09:00')
        .passTo('Front valance', 'fabricated')
        .at('2026-11-24T09:00')
      car.notNeeded('Front valance', 'sealed').passTo('Front valance', 'welded')
      return car.add('gatePassed', {
        repairId: repairId('Front valance'),
        gate: 'painted',
        did: [personId('Ines')],
        second: null,
        asked: ASKS_NOTHING,
        evidence: { attachments: [], readings: [] },
        released: [],
        coat: 'temporary',
        note: '',
      })
    })(),
  ),
  story(
    'went away and came back',
    (() => {
      const car = carWith('Boot floor').at('2026-11-24T08:00')
      sendAway(car, { expected: '2026-11-27' }).at('2026-11-27T10:00')
      return bringBack(car, {
        uncovered: 'a lead seam on the left quarter, and three pinholes in the scuttle',
      })
    })(),
  ),
  story(
    'fourteen repairs, most not begun',
    (() => {
      const names = Array.from({ length: 14 }, (_, index) => `Outrigger ${index + 1}`)
      const car = carWith(...names).passTo('Outrigger 1', 'opened')
      find(car, 'Outrigger 1', 'one')
      return find(car, 'Outrigger 1', 'two', {
        kind: 'earlier patch',
        grade: 'gone',
        extent: 'all of it',
        needs: 'to come off',
        layerId: null,
      })
    })(),
  ),
]
