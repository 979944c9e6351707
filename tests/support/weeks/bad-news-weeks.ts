import { type CarBuilder, onGate, repairId } from '../car-builder.ts'
import { layerId, repairPlan } from '../plans.ts'
import {
  ask,
  bringBack,
  carWith,
  closeAsFound,
  expecting,
  find,
  finish,
  fitUp,
  grade,
  group,
  hoursOn,
  likely,
  movePart,
  needPart,
  reopen,
  sendAway,
  settle,
  story,
  type WeekStory,
} from './week-acts.ts'

/** Weeks with bad news: it is worse than it looked, and it takes longer. */
export const badNewsWeeks = (): readonly WeekStory[] => [
  story(
    'every layer worse than the one before',
    (() => {
      const car = carWith('Sill, left').passTo('Sill, left', 'opened')
      grade(car, 'Sill, left', 'inner', { grade: 'gone', decision: 'replace' })
      grade(car, 'Sill, left', 'closing', { grade: 'pitted', remainingMm: 0.6 })
      find(car, 'Sill, left', 'alike', {
        grade: 'gone',
        extent: 'The whole length, 900 mm.',
        needs: 'A new inner panel.',
      })
      find(car, 'Sill, left', 'crack', {
        kind: 'crack',
        grade: 'sound',
        extent: '40 mm, from the jacking point',
        needs: 'to be stopped and welded',
      })
      return find(car, 'Sill, left', 'filler', {
        kind: 'filler',
        grade: 'holed',
        layerId: null,
        extent: '6 mm thick over an old dent',
        needs: 'to come out',
      })
    })(),
    { expected: expecting({ hours: likely(24, 31), finish: finish('2026-12-22', '2027-01-08') }) },
  ),
  story(
    'a layer that nobody could see',
    (() => {
      const car = carWith('Roof rail, right').passTo('Roof rail, right', 'opened')
      grade(car, 'Roof rail, right', 'inner', {
        grade: 'not seen',
        judgedBy: 'with a camera through the drain hole, and by knocking.',
        decision: 'treat',
      })
      return grade(car, 'Roof rail, right', 'closing', { grade: 'sound', decision: 'keep' })
    })(),
  ),
  story(
    'layers with a name of many, in each grade',
    (() => {
      const car = ribbed('Boot floor')
      grade(car, 'Boot floor', 'inner', { grade: 'gone', decision: 'replace' })
      return grade(car, 'Boot floor', 'closing', { grade: 'gone', decision: 'replace' })
    })(),
    { expected: expecting({ finish: finish('2026-12-12', '2026-12-19') }) },
  ),
  story(
    'layers with a name of many that stay',
    (() => {
      const car = ribbed('Boot floor')
      grade(car, 'Boot floor', 'inner', { grade: 'surface', decision: 'treat' })
      return grade(car, 'Boot floor', 'closing', { grade: 'sound', decision: 'keep' })
    })(),
  ),
  story(
    'extra work with every finding',
    (() => {
      const car = carWith('Boot floor', 'Scuttle').passTo('Boot floor', 'opened')
      for (const [name, payer] of [
        ['owner', 'owner'],
        ['insurer', 'insurer'],
        ['workshop', 'workshop'],
      ] as const) {
        find(car, 'Boot floor', `for-${name}`, {
          kind: 'corrosion',
          extent: `80 mm across, on the ${name} side`,
          needs: `a patch for the ${name}`,
        })
        ask(
          car,
          `Patch for the ${name}`,
          { target: onGate('Boot floor', 'fabricated'), hours: 3, low: 2, high: 5 },
          { payer, findings: [`finding-for-${name}` as never] },
        )
      }
      car.decide('Patch for the insurer', 'accepted')
      return car
    })(),
  ),
  story(
    'repairs came onto the list and left it',
    (() => {
      const car = carWith('Boot floor', 'Scuttle', 'Bulkhead').repair('Battery tray').repair('Pedal box')
      car.add('repairRetired', {
        repairId: repairId('Scuttle'),
        reason: 'The metal is sound; nothing is to be done.',
      })
      return car.add('repairSplit', {
        repairId: repairId('Bulkhead'),
        newRepairId: repairId('Bulkhead, lower'),
        plan: repairPlan('Bulkhead, lower'),
        share: 0.5,
        moves: [],
        reason: 'the lower half waits for the steering box,',
      })
    })(),
  ),
  story('one repair came onto the list', carWith('Boot floor').repair('Battery tray')),
  story(
    'closed as found',
    (() => {
      const car = carWith('Wheel arch, rear left', 'Boot floor').passTo('Wheel arch, rear left', 'assessed')
      return closeAsFound(car, 'Wheel arch, rear left')
    })(),
    { expected: expecting({ finish: finish('2026-12-08', '2026-12-10') }) },
  ),
  story(
    'load-bearing metal closed as found, and one from before',
    (() => {
      const car = carWith('Boot floor')
        .at('2026-11-12T09:00')
        .repair('Sill, right', { loadBearing: true })
        .agree('Sill, right')
        .repair('Floor edge')
        .agree('Floor edge')
      closeAsFound(car.passTo('Floor edge', 'assessed'), 'Floor edge')
        .at('2026-11-25T09:00')
        .passTo('Sill, right', 'assessed')
      return closeAsFound(car, 'Sill, right', {
        protection: 'None that would last.',
        answer: 'No more money this year.',
      })
    })(),
  ),
  story(
    'a check set aside, and work that stopped',
    (() => {
      const car = carWith('Chassis leg, left')
      ask(car, 'New chassis leg', {
        target: onGate('Chassis leg, left', 'fabricated'),
        hours: 12,
        low: 10,
        high: 18,
      })
      car.decide('New chassis leg', 'declined')
      settle(car, 'New chassis leg', 'stopped', 'We do not close load-bearing metal in this state.')
      return car.add('holdReleased', {
        repairId: repairId('Chassis leg, left'),
        gate: 'primed',
        code: 'conditions',
        subject: '',
        reason: 'the heater was on, the reading was late',
        ownHold: false,
      })
    })(),
    { expected: expecting({ finish: { revision: 1000, range: null, faults: ['not authorised'] } }) },
  ),
]

/** A repair whose inner layer has a name of many. */
const ribbed = (name: string): CarBuilder => {
  const ribs = {
    layerId: layerId(name, 'inner'),
    name: 'Stiffening ribs, rear',
    thicknessMm: 0.9,
    loadBearing: false,
  }
  const sheet = {
    layerId: layerId(name, 'closing'),
    name: 'Floor chassis',
    thicknessMm: 1.2,
    loadBearing: false,
  }
  return carWith()
    .repair(name, { layers: [ribs, sheet] })
    .agree(name)
    .passTo(name, 'opened')
}

/** Work done again, fits and parts that were not good. */
export const reworkWeeks = (): readonly WeekStory[] => [
  story(
    'taken back and not done again',
    reopen(
      carWith('Boot floor').at('2026-11-18T09:00').passTo('Boot floor', 'primed').at('2026-11-24T09:00'),
      'Boot floor',
      'sealed',
      'workmanship',
      'a pinhole in the seam',
    ),
    { expected: expecting({ before: finish('2026-12-07', '2026-12-09', 0) }) },
  ),
  story(
    'taken back for each cause',
    (() => {
      const causes = [
        'material',
        'fit',
        'measurement',
        'damaged after',
        'changed mind',
        'found later',
      ] as const
      const car = carWith(...causes.map((cause) => `Panel ${cause}`)).at('2026-11-18T09:00')
      for (const cause of causes) car.passTo(`Panel ${cause}`, 'fabricated')
      car.at('2026-11-24T09:00')
      for (const cause of causes)
        reopen(car, `Panel ${cause}`, 'fabricated', cause, 'seen when the doors were hung')
      return car
    })(),
  ),
  story(
    'taken back and done again',
    (() => {
      const car = carWith('Boot floor')
        .at('2026-11-18T09:00')
        .passTo('Boot floor', 'trial-fitted')
        .at('2026-11-24T09:00')
      reopen(car, 'Boot floor', 'trial-fitted', 'fit', 'the edge stands 3 mm proud')
      hoursOn(car, 'Boot floor', 'trial-fitted', 1)
      return car.passTo('Boot floor', 'trial-fitted')
    })(),
    { expected: expecting({ hours: likely(16.2, 16.4) }) },
  ),
  story(
    'fits that were not good',
    (() => {
      const car = carWith('Door shut, left', 'Wing, left', 'Bonnet').at('2026-11-18T09:00')
      group(car, 'Left door opening', 'Door shut, left', 'Wing, left')
      group(car, 'Bonnet opening', 'Bonnet')
      car.at('2026-11-24T09:00')
      fitUp(car, 'one', 'Left door opening', false, '3 mm proud at the latch.')
      fitUp(car, 'two', 'Left door opening', false)
      fitUp(car, 'three', 'Left door opening', true)
      return fitUp(car, 'four', 'Bonnet opening', false, 'THE GAP RUNS OUT TO THE REAR')
    })(),
  ),
  story(
    'parts sent back, and a bath that undid work',
    (() => {
      const car = carWith('Boot floor', 'Scuttle')
        .at('2026-11-16T09:00')
        .passTo('Boot floor', 'primed')
        .passTo('Scuttle', 'sealed')
      needPart(car, 'Boot hinge', 'Boot floor', 'trial-fitted')
      movePart(car, 'Boot hinge', 'received')
      sendAway(car, { from: '2026-11-17' }).at('2026-11-25T09:00')
      movePart(car, 'Boot hinge', 'rejected', null, 'the holes are drilled for the other side.')
      return bringBack(car, {
        tookBack: [
          { repairId: repairId('Boot floor'), gate: 'sealed' },
          { repairId: repairId('Scuttle'), gate: 'sealed' },
        ],
      })
    })(),
    { expected: expecting({ before: finish('2026-12-01', '2026-12-03', 0) }) },
  ),
]
