import { onGate } from '../car-builder.ts'
import { buildCar } from '../car-builder.ts'
import { choicesOf } from '../owner-report.ts'
import {
  ask,
  bringBack,
  carWith,
  closeAsFound,
  find,
  fitUp,
  grade,
  group,
  hoursOn,
  movePart,
  needPart,
  reopen,
  sendAway,
  settle,
  setStatus,
  shoot,
  story,
  type WeekStory,
} from './week-acts.ts'

const LONG =
  'Inner rear wheel arch to boot floor closing panel with the seat-belt mounting and its reinforcement, right, lower half'

/** Every text that people type, typed one way. */
function typed(text: string): ReturnType<typeof carWith> {
  const car = carWith('Boot floor', 'Scuttle', 'Bonnet')
    .at('2026-11-18T09:00')
    .passTo('Scuttle', 'sealed')
    .at('2026-11-24T09:00')
  needPart(car, 'Boot hinge', 'Scuttle', 'trial-fitted')
  movePart(car, 'Boot hinge', 'received')
  movePart(car, 'Boot hinge', 'rejected', null, text)
  find(car.passTo('Boot floor', 'opened'), 'Boot floor', 'typed', { extent: text, needs: text })
  grade(car, 'Boot floor', 'inner', { grade: 'not seen', judgedBy: text })
  shoot(car, 'c1', 'Boot floor', 'opened', 'after', text)
  ask(
    car,
    'Flange',
    { target: onGate('Boot floor', 'fabricated'), hours: 2, low: 2, high: 2 },
    { why: text, ifNot: text },
  )
  ask(
    car,
    'Skin',
    { target: onGate('Boot floor', 'welded'), hours: 2, low: 2, high: 2 },
    { why: text, ifNot: text },
  )
  settle(car.decide('Skin', 'declined'), 'Skin', 'less work', text)
  reopen(car, 'Scuttle', 'sealed', 'fit', text)
  group(car, 'Bonnet opening', 'Bonnet')
  fitUp(car, 'typed', 'Bonnet opening', false, text)
  bringBack(sendAway(car, { what: text }), { uncovered: text, reason: text })
  closeAsFound(car, 'Bonnet', { protection: text, answer: text })
  return car
}

/** Odd typing, long names, hard punctuation. */
export const typedWeeks = (): readonly WeekStory[] => [
  story('a stop and a comma', typed('clean it.,')),
  story('a trailing comma and double blanks', typed('  clean  it , then  look again ,')),
  story('capitals', typed('CLEAN IT AT ONCE!')),
  story('quotation marks and brackets', typed('the ‘old’ patch ("1988") is loose.)')),
  story('a list over several lines', typed('- the flange\n- the seam;\n- the drain.')),
  story('dots, dashes and a question', typed('nobody knows ... — who can tell ,, us ?')),
  story(
    'long names',
    (() => {
      const car = buildCar({ name: 'The long saloon of the late Countess of Harrowdale, second body' })
      car
        .repair('Arch', { name: LONG })
        .agree('Arch')
        .repair('Second arch', { name: `${LONG}, second part` })
        .agree('Second arch')
      car.at('2026-11-24T09:00').passTo('Arch', 'opened')
      hoursOn(car, 'Arch', 'opened', 2)
      return ask(car, 'More on the seat-belt mounting, right', {
        target: onGate('Arch', 'fabricated'),
        hours: 2,
        low: 2,
        high: 2,
      })
    })(),
  ),
  story(
    'names with stops and capitals',
    hoursOn(
      hoursOn(
        carWith('SILL L.H.', 'B-post, No. 2.', 'Hat shelf')
          .passTo('SILL L.H.', 'opened')
          .passTo('Hat shelf', 'opened'),
        'B-post, No. 2.',
        'opened',
        1,
      ),
      'Hat shelf',
      'opened',
      1,
    ),
  ),
  story('the manager’s own words', carWith('Boot floor'), {
    choices: choicesOf({ words: 'The hall was cold,\n\nso the sealer waits.  We are sorry' }),
  }),
  story(
    'a pause typed with a stop and a comma',
    setStatus(carWith('Boot floor'), 'paused', 'WE WAIT FOR YOU.,'),
  ),
]
