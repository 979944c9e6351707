import { onGate, visitId } from '../car-builder.ts'
import { buildCar } from '../car-builder.ts'
import { choicesOf } from '../owner-report.ts'
import {
  agreeOn,
  carWith,
  expecting,
  finish,
  hoursOn,
  likely,
  setStatus,
  story,
  type WeekStory,
} from './week-acts.ts'

const worked = (car = carWith('Boot floor', 'Scuttle')) => hoursOn(car, 'Boot floor', 'opened', 3.25)
const capped = () => agreeOn(carWith('Boot floor', 'Scuttle'), { charge: { by: 'capped', capHours: 28 } })
const slipped = { finish: finish('2026-12-15', '2026-12-22'), before: finish('2026-12-09', '2026-12-14', 0) }

/** How a visit is charged, and how its dates stand. */
export const termsWeeks = (): readonly WeekStory[] => [
  story('by the hour, and it may take more than is agreed', worked(), {
    expected: expecting({ hours: likely(30, 35) }),
  }),
  story('by the hour, and it will take more than is agreed', worked(), {
    expected: expecting({ hours: likely(41, 52), ...slipped }),
  }),
  story('capped, within the cap', worked(capped()), { expected: expecting({ hours: likely(22, 26) }) }),
  story('capped, and it may go beyond', worked(capped()), { expected: expecting({ hours: likely(26, 33) }) }),
  story('capped, and it will go beyond', worked(capped()), {
    expected: expecting({ hours: likely(35, 44) }),
  }),
  story('a fixed price', worked(agreeOn(carWith('Boot floor'), { charge: { by: 'fixed' } })), {
    expected: expecting(),
  }),
  story(
    'a warranty visit at work',
    (() => {
      const car = buildCar()
        .visit('return', { kind: 'warranty', promised: null })
        .repair('Door skin, left')
        .agree('Door skin, left')
      car.at('2026-11-25T09:00').passTo('Door skin, left', 'opened')
      return hoursOn(car, 'Door skin, left', 'opened', 2)
    })(),
    { visitId: visitId('return'), expected: expecting() },
  ),
  story(
    'the insurer and the workshop pay too',
    worked(
      carWith('Boot floor')
        .repair('Rear panel')
        .estimate(onGate('Rear panel', 'opened'), 4, { payer: 'insurer' })
        .estimate(onGate('Rear panel', 'sealed'), 1, { payer: 'workshop' }),
    ),
    { expected: expecting({ hours: likely(21, 25) }) },
  ),
  story('only the later date is told', worked(), {
    expected: expecting(slipped),
    choices: choicesOf({ dates: 'later date' }),
  }),
  story('no date is told', worked(), { expected: expecting(slipped), choices: choicesOf({ dates: 'none' }) }),
  story('the promise was moved, and it comes sooner', agreeOn(worked(), { promised: '2027-01-15' }), {
    expected: expecting({ before: finish('2026-12-18', '2026-12-18', 0) }),
  }),
  story('the promise was withdrawn, nobody is free for it', agreeOn(worked(), { promised: null }), {
    expected: expecting({
      finish: { revision: 1000, range: null, faults: ['no skill', 'no bay', 'no skill'] },
    }),
  }),
  story('the promised day has gone by', agreeOn(worked(), { promised: '2026-11-25' }), {
    expected: expecting({
      finish: finish('2026-12-01', '2026-12-01'),
      before: { revision: 0, range: null, faults: [] },
    }),
  }),
  story(
    'paused while a date was promised',
    setStatus(agreeOn(worked(), { promised: '2026-11-25' }), 'paused', 'the garage is not ready,'),
    { expected: expecting() },
  ),
]
