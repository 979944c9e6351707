import { describe, expect, it } from 'vitest'
import {
  awayIdSchema,
  bookingIdSchema,
  holdIdSchema,
  partIdSchema,
  partyIdSchema,
} from '../../../domain/ids.ts'
import { ASKS_NOTHING } from '../../../domain/catalogue/type-plan.ts'
import { shopFloorView } from '../../../domain/views/shop-floor-view.ts'
import { buildCar, entryId, onGate, personId, repairId, visitId } from '../../support/car-builder.ts'
import { dunmere, floorOf, inBay, lineOf, now, workshop } from '../../support/floor-views.ts'
import { simplePlan } from '../../support/kept-plan.ts'
import { bayId, nameOf } from '../../support/workshop-builder.ts'

describe('where the cars stand', () => {
  it('is told with when each planned car is done by', () => {
    const car = dunmere().car()
    const plan = simplePlan(car.id)
    const { finishes } = shopFloorView({ cars: [car], now, workshop, nameOf, by: personId('Mara'), plan })
    expect(finishes).toEqual([{ carId: car.id, finish80: Date.parse('2027-03-29T16:30:00+02:00') }])
  })

  it('is their bay, with the days that they have been there', () => {
    const floor = floorOf([dunmere().car()])
    const bay = floor.bays.find(({ name }) => name === '1 metalwork')!
    expect(bay.cars.map(({ name, place, daysThere }) => [name, place, daysThere])).toEqual([
      ['Dunmere Saloon', '1 metalwork', 23],
    ])
    expect(floor.bays.map(({ name, storage }) => [name, storage])).toEqual([
      ['1 metalwork', false],
      ['3 jig', false],
      ['6 booth', false],
      ['yard', true],
    ])
    expect(floor.nowhere).toEqual([])
  })

  it('is the firm that they were sent to, overdue once they were expected back', () => {
    const car = dunmere().add('shellSentAway', {
      awayId: awayIdSchema.parse('away-dip'),
      firmId: partyIdSchema.parse('party-dippers'),
      what: 'dipping',
      from: '2026-11-20',
      expected: '2026-11-24',
    })
    const [away] = floorOf([car.car()]).away
    expect(away).toMatchObject({
      firm: 'Dippers',
      what: 'dipping',
      overdue: true,
      place: 'away at Dippers',
      daysThere: 5,
      next: 'back on Tue 24 Nov',
      held: 'The shell is away: dipping',
    })
  })

  it('is nowhere for a car that has not come yet, and a delivered one is left out', () => {
    expect(floorOf([buildCar().car()]).nowhere.map(({ place }) => place)).toEqual(['not here'])
    const gone = dunmere().add('visitStatusSet', {
      visitId: visitId('first'),
      status: 'delivered',
      reason: '',
    })
    const floor = floorOf([gone.car()])
    expect([...floor.nowhere, ...floor.bays.flatMap((bay) => bay.cars)]).toEqual([])
    expect(lineOf(gone.car())).toMatchObject({ next: 'delivered', held: null, place: 'delivered' })
  })
})

describe("the manager's list", () => {
  it('shows clocks left running past the end of the day and stopped ones to confirm as what needs them', () => {
    const car = dunmere()
      .clock('a', 'Joss', '2026-11-24T14:30', [onGate('Boot floor', 'opened')])
      .clock('b', 'Wren', '2026-11-23T14:30', [onGate('Boot floor', 'opened')])
      .add('clockStopped', {
        entryId: entryId('b'),
        end: '2026-11-23T18:00:00Z',
        countsTo: '2026-11-23T16:30:00Z',
        overtime: false,
        shares: null,
        watchMinutes: null,
      })
      .clock('c', 'Ines', '2026-11-25T09:00', [onGate('Boot floor', 'opened')])
    const clocks = floorOf([car.car()]).attention.find(({ title }) => title.startsWith('Clocks'))!
    expect(
      clocks.lines.map(({ words, since, way }) => [words, since, way.to === 'clock' && way.clock.entryId]),
    ).toEqual([
      ["Joss's clock still runs on boot floor: opened; it counts to 16:30.", '2026-11-24', 'entry-a'],
      [
        "Wren stopped the clock on boot floor: opened at 18:00, after the day's end; it counts to 16:30.",
        '2026-11-23',
        'entry-b',
      ],
    ])
  })

  const held = () =>
    dunmere().add('partNeeded', {
      partId: partIdSchema.parse('part-edge'),
      repairId: repairId('Boot floor'),
      gate: 'opened',
      name: 'edge',
    })
  const release = {
    repairId: repairId('Boot floor'),
    gate: 'opened' as const,
    code: 'parts' as const,
    subject: 'part-edge',
    reason: 'the edge is only needed later',
  }

  it('holds a release that was asked for until it is given', () => {
    const car = held().by('Joss').add('releaseAsked', release)
    expect(floorOf([car.car()]).forYou.releases.map(({ words }) => words)).toEqual([
      "Joss asks to release 'parts' on boot floor, opened: the edge is only needed later",
    ])
    car.by('Mara').add('holdReleased', { ...release, ownHold: false })
    expect(floorOf([car.car()]).forYou.releases).toEqual([])
  })

  it('holds the release of a skill that was asked for, and says of whom', () => {
    const skill = { ...release, code: 'skill' as const, subject: personId('Ines'), reason: 'Joss looked on' }
    const car = held().by('Joss').add('releaseAsked', skill)
    expect(floorOf([car.car()]).forYou.releases.map(({ words }) => words)).toEqual([
      "Joss asks to release 'skill' of Ines on boot floor, opened: Joss looked on",
    ])
    car.by('Mara').add('holdReleased', { ...skill, ownHold: false })
    expect(floorOf([car.car()]).forYou.releases).toEqual([])
  })

  it('forgets a release that was asked for once the hold is gone by itself', () => {
    const car = held()
      .add('releaseAsked', release)
      .add('partMoved', {
        partId: partIdSchema.parse('part-edge'),
        state: 'checked',
        expected: null,
        reason: '',
      })
    expect(floorOf([car.car()]).forYou.releases).toEqual([])
  })

  it('holds decisions, faults and reviews that are missing', () => {
    const car = inBay('3 jig')
      .repair('Boot floor', { gates: { fabricated: { asks: { ...ASKS_NOTHING, review: true } } } })
      .passTo('Boot floor', 'assessed')
      .repair('Valance')
      .passTo('Valance', 'welded')
      .repair('Spring hanger')
      .cover('Valance', 'Spring hanger')
      .vary('Corner', [{ target: onGate('Boot floor', 'fabricated'), hours: 2 }])
    const { decisions, faults, reviews } = floorOf([car.car()]).forYou
    expect(decisions.map(({ title }) => title)).toEqual(['Corner'])
    expect(faults.map(({ words }) => words)).toEqual([
      'closed over unfinished work: Valance is closed and Spring hanger behind it is not finished; reopen Valance',
    ])
    expect(reviews.map(({ repairName }) => repairName)).toEqual(['Boot floor'])
  })

  it('asks for no review once fabricated is done', () => {
    const car = inBay('3 jig')
      .repair('Boot floor', { gates: { fabricated: { asks: { ...ASKS_NOTHING, review: true } } } })
      .passTo('Boot floor', 'fabricated')
    expect(floorOf([car.car()]).forYou.reviews).toEqual([])
  })

  it('is empty for a technician', () => {
    const car = dunmere().vary('Corner', [{ target: onGate('Boot floor', 'opened'), hours: 2 }])
    car.log('a', 'Joss', { kind: 'day', date: '2026-11-24', hours: 9 }, [onGate('Boot floor', 'opened')])
    expect(floorOf([car.car()]).attention).not.toEqual([])
    expect(floorOf([car.car()], personId('Joss')).attention).toEqual([])
    expect(floorOf([car.car()], personId('Joss')).forYou.decisions).toEqual([])
    expect(floorOf([car.car()]).forYou.decisions).toHaveLength(1)
  })
})

describe('today', () => {
  it('says what may be done and who is on it', () => {
    const car = dunmere()
      .repair('Scuttle')
      .agree('Scuttle')
      .repair('Sill, left')
      .agree('Sill, left')
      .passTo('Boot floor', 'assessed')
      .clock('a', 'Joss', '2026-11-25T08:10', [onGate('Boot floor', 'fabricated')])
    expect(floorOf([car.car()]).today).toEqual([
      'Dunmere Saloon: boot floor (Joss is on it) may be fabricated; scuttle and sill, left may be opened.',
    ])
  })

  it('says what waits for whom, each reason once', () => {
    const car = dunmere()
      .repair('Scuttle')
      .agree('Scuttle')
      .add('holdSet', {
        holdId: holdIdSchema.parse('hold-inspector'),
        scope: { kind: 'car' },
        words: 'The inspector looks first',
        clears: 'the inspector',
        expected: '2026-11-27',
      })
    expect(floorOf([car.car()]).today).toEqual([
      'Dunmere Saloon: boot floor cannot be opened yet: the inspector looks first; expected Fri 27 Nov.',
    ])
  })

  it('says when curing ends, without saying the name twice', () => {
    const car = inBay('3 jig')
      .repair('Roof gutter', { gates: { sealed: { cureHours: 72 } } })
      .agree('Roof gutter')
      .at('2026-11-23T14:30')
      .passTo('Roof gutter', 'fabricated')
      .at('2026-11-23T14:30')
      .pass('Roof gutter', 'sealed')
    expect(floorOf([car.car()]).today).toEqual([
      'Dunmere Saloon: roof gutter cannot be primed yet: sealed cures until Thu 26 Nov 14:30.',
    ])
  })

  it('does not list what only waits for its cover', () => {
    const car = dunmere().repair('Wheel well').agree('Wheel well').cover('Boot floor', 'Wheel well')
    expect(floorOf([car.car()]).today).toEqual(['Dunmere Saloon: boot floor may be opened.'])
  })

  it('says which car goes where today, and which should have left', () => {
    const book = (id: string, bay: string, from: string, to: string) => ({
      bookingId: bookingIdSchema.parse(`booking-${id}`),
      bayId: bayId(bay),
      from,
      to,
    })
    const comes = inBay('yard').add('bayBooked', book('one', '6 booth', '2026-11-25', '2026-11-27'))
    expect(floorOf([comes.car()]).today).toEqual(['Dunmere Saloon goes into 6 booth today.'])
    const stays = inBay('3 jig').add('bayBooked', book('two', '3 jig', '2026-11-02', '2026-11-20'))
    expect(floorOf([stays.car()]).today).toEqual([
      'Dunmere Saloon was booked in 3 jig until Fri 20 Nov and is still there.',
    ])
  })

  it('is silent about a car whose visit is not in work', () => {
    const car = dunmere().add('visitStatusSet', { visitId: visitId('first'), status: 'paused', reason: '' })
    expect(floorOf([car.car()]).today).toEqual([])
  })
})
