import { onGate, onTask, variationId } from '../car-builder.ts'
import {
  ask,
  carWith,
  expecting,
  find,
  finish,
  hoursOn,
  settle,
  shoot,
  story,
  type WeekStory,
} from './week-acts.ts'

const more = (
  hours: number,
  gate: 'fabricated' | 'welded' | 'sealed' = 'fabricated',
  low = hours,
  high = hours,
) => ({ target: onGate('Boot floor', gate), hours, low, high })
const before = finish('2026-12-01', '2026-12-10', 0)

/** Weeks in which something waits for an answer, or got one. */
export const decisionWeeks = (): readonly WeekStory[] => [
  story(
    'one question, with its photo and finding',
    (() => {
      const car = carWith('Boot floor').passTo('Boot floor', 'opened')
      shoot(car, 'b1', 'Boot floor', 'opened', 'after', 'the flange, from below')
      find(car, 'Boot floor', 'flange', { attachments: ['photo-b1' as never] })
      ask(car, 'New flange', more(6, 'fabricated', 4, 11), {
        findings: ['finding-flange' as never],
        attachments: ['photo-b1' as never],
      })
      return car.add('decisionExpected', { variationId: variationId('New flange'), expected: '2026-12-01' })
    })(),
    { expected: expecting({ before }) },
  ),
  story(
    'a question of one hour',
    ask(carWith('Boot floor'), 'One spot more', more(1, 'welded'), { ifNot: '' }),
  ),
  story(
    'several questions, one of them less work',
    (() => {
      const car = carWith('Boot floor', 'Scuttle').at('2026-11-20T09:00')
      ask(car, 'New flange', more(6))
      ask(car, 'Leave the second seam', more(-2, 'sealed'), { why: 'The seam is sound.', ifNot: '' })
      return ask(
        car,
        'Scuttle drains',
        { target: onGate('Scuttle', 'sealed'), hours: 1.5, low: 1, high: 3 },
        { why: 'both drains are blocked' },
      )
    })(),
    { expected: expecting({ before }) },
  ),
  story(
    'answered: yes, yes with changes, and no',
    (() => {
      const car = carWith('Boot floor').at('2026-11-20T09:00')
      ask(car, 'New flange', more(6))
      ask(car, 'Second skin', more(4, 'welded'))
      ask(car, 'Third seam', more(2, 'sealed'))
      car.at('2026-11-25T09:00').decide('New flange', 'accepted').decide('Third seam', 'declined')
      const changed = { lines: [{ target: onGate('Boot floor', 'welded'), hours: 2.5 }], costs: [] }
      return car.add('variationDecided', {
        variationId: variationId('Second skin'),
        decision: 'accepted',
        changed,
        how: 'call',
        note: '',
      })
    })(),
    { expected: expecting({ before }) },
  ),
  story(
    'declined, and each way to settle it',
    (() => {
      const car = carWith('Boot floor')
      for (const [title, choice] of [
        ['New flange', 'workshop pays'],
        ['Second skin', 'less work'],
        ['Third seam', 'stopped'],
      ] as const) {
        ask(car, title, more(3))
        car.decide(title, 'declined')
        settle(car, title, choice, 'as agreed on the telephone.')
      }
      return car
    })(),
    { expected: expecting({ before }) },
  ),
  story(
    'the estimate was accepted, and the insurer answered too',
    (() => {
      const car = carWith().repair('Boot floor').repair('Scuttle')
      car.estimate(onGate('Boot floor', 'opened'), 2).estimate(onGate('Boot floor', 'fabricated'), 5)
      return car.estimate(onGate('Scuttle', 'opened'), 1, { payer: 'insurer' })
    })(),
  ),
  story(
    'the insurer is asked, not the owner',
    (() => {
      const car = carWith('Boot floor').passTo('Boot floor', 'assessed')
      ask(car, 'Straighten the rear panel', more(9, 'fabricated', 8, 14), { payer: 'insurer' })
      return car
        .repair('Rear panel')
        .estimate(onGate('Rear panel', 'opened'), 3, { accepted: false, payer: 'insurer' })
    })(),
  ),
  story(
    'an estimate of a task waits beside a question',
    (() => {
      const car = carWith('Boot floor')
        .task('Paint the shell')
        .estimate(onTask('Paint the shell'), 30, { accepted: false })
      ask(car, 'New flange', more(6))
      return hoursOn(car, 'Boot floor', 'opened', 2)
    })(),
    { expected: expecting({ before }) },
  ),
]
