import { onGate, onTask } from '../car-builder.ts'
import {
  carWith,
  expecting,
  finish,
  hold,
  likely,
  movePart,
  needPart,
  sendAway,
  setStatus,
  story,
  type WeekStory,
} from './week-acts.ts'

/** Weeks in which nothing was done, and why. */
export const quietWeeks = (): readonly WeekStory[] => [
  story('waits its turn', carWith('Sill, left', 'Boot floor'), {
    expected: expecting({ hours: likely(36, 43) }),
  }),
  story(
    'paused this week by the owner',
    setStatus(carWith('Sill, left'), 'paused', 'You are moving house and asked us to wait.'),
    { expected: expecting() },
  ),
  story('paused for weeks', setStatus(carWith('Sill, left').at('2026-11-10T10:00'), 'paused')),
  story(
    'away at the dippers',
    sendAway(carWith('Sill, left', 'Scuttle').at('2026-11-18T08:00'), { from: '2026-11-18' }),
  ),
  story('no work left open', carWith('Boot floor').at('2026-11-18T09:00').passTo('Boot floor', 'painted')),
  story(
    'waits for a part that comes late',
    (() => {
      const car = carWith('A-post foot, right').at('2026-11-12T09:00').passTo('A-post foot, right', 'primed')
      needPart(car, 'Lower hinge, right', 'A-post foot, right', 'trial-fitted')
      movePart(car, 'Lower hinge, right', 'ordered', '2026-11-26')
      car.at('2026-11-24T10:00')
      return movePart(car, 'Lower hinge, right', 'ordered', '2026-12-09')
    })(),
    { expected: expecting({ finish: finish('2026-12-17', '2026-12-23') }) },
  ),
  story(
    'waits for a part that did not come on its day',
    (() => {
      const car = carWith('A-post foot, left').at('2026-11-12T09:00').passTo('A-post foot, left', 'primed')
      needPart(car, 'Lower hinge, left', 'A-post foot, left', 'trial-fitted')
      return movePart(car, 'Lower hinge, left', 'ordered', '2026-11-20')
    })(),
  ),
  story(
    'not back on its day',
    sendAway(carWith('Sill, left').at('2026-11-10T08:00'), { from: '2026-11-10', expected: '2026-11-24' }),
  ),
  story(
    'held by hand, typed in capitals',
    hold(carWith('Sill, left').at('2026-11-19T09:00'), 'payment', {
      words: 'SECOND PAYMENT IS DUE,',
      clears: 'the owner',
      expected: null,
    }),
  ),
  story(
    'waits for the answer',
    carWith('Boot floor')
      .at('2026-11-19T09:00')
      .passTo('Boot floor', 'assessed')
      .vary('New flange', [{ target: onGate('Boot floor', 'fabricated'), hours: 5 }]),
  ),
  story(
    'waits for a task',
    carWith('Boot floor')
      .at('2026-11-18T09:00')
      .task('Blasting', { holds: [onGate('Boot floor', 'opened')] })
      .estimate(onTask('Blasting'), 4),
  ),
]
