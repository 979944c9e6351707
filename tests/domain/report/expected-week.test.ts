import { describe, expect, it } from 'vitest'
import { fact, type Fact } from '../../../domain/facts.ts'
import { partIdSchema } from '../../../domain/ids.ts'
import { expectedHours } from '../../../domain/report/expected-hours.ts'
import type { DatesShown } from '../../../domain/report/report-choices.ts'
import { tellingCar } from '../../../domain/report/telling.ts'
import {
  elsewhereChanges,
  type PlannedFinish,
  type WeekExpected,
} from '../../../domain/report/week-expected.ts'
import {
  type CarBuilder,
  onGate,
  onTask,
  personId,
  repairId,
  variationId,
  visitId,
} from '../../support/car-builder.ts'
import { choicesOf, linesOf, reportOn, sectionOf } from '../../support/owner-report.ts'
import { DID, inWork, READY, work } from '../../support/report-cases.ts'
import { buildWorkshop, nameOf } from '../../support/workshop-builder.ts'
import { createEstimateHistory } from '../../support/estimate-history.ts'

const finish = (early: string, late: string, revision = 1000): PlannedFinish => ({
  revision,
  range: { early: Date.parse(`${early}T16:00Z`), late: Date.parse(`${late}T16:00Z`) },
  faults: [],
})

const expecting = (more: Partial<WeekExpected> = {}): WeekExpected => ({
  hours: null,
  finish: finish('2026-12-14', '2026-12-17'),
  before: null,
  elsewhere: [],
  ...more,
})

const ready = (car: CarBuilder, expected: WeekExpected | null, dates: DatesShown = 'range') =>
  linesOf(reportOn(car, { expected, choices: choicesOf({ dates }) }), READY)

const PROMISED = 'The promised date is Fri 18 Dec, as before.'

describe('the expected finish', () => {
  it('is a range in words, the later date first, as the manager chose at first', () => {
    expect(ready(inWork(), expecting())).toEqual([
      'We expect to be done by Thu 17 Dec, and perhaps as early as Mon 14 Dec: the later date holds in four cases of five, the earlier one in half of them.',
      `${PROMISED} As it looks now we shall keep it.`,
    ])
  })

  it('is the later date alone, or not told, as the manager chooses', () => {
    expect(ready(inWork(), expecting(), 'later date')[0]).toBe('We expect to be done by Thu 17 Dec.')
    expect(ready(inWork(), expecting(), 'none')).toEqual([PROMISED])
  })

  it('is one date where both fall on one day', () => {
    const expected = expecting({ finish: finish('2026-12-17', '2026-12-17') })
    expect(ready(inWork(), expected)[0]).toBe('We expect to be done by Thu 17 Dec.')
  })

  it('is a day on which the workshop works', () => {
    const expected = expecting({ finish: finish('2026-12-12', '2026-12-13') })
    expect(ready(inWork(), expected, 'later date')[0]).toBe('We expect to be done by Mon 14 Dec.')
  })

  it('is not told without a plan, nor from one whose day has gone by', () => {
    expect(ready(inWork(), null)).toEqual([PROMISED])
    expect(ready(inWork(), expecting({ finish: null }))).toEqual([PROMISED])
    const past = finish('2026-11-23', '2026-11-25')
    expect(ready(inWork(), expecting({ finish: past }))).toEqual([PROMISED])
  })

  it('says plainly that no date can be given, and why', () => {
    const faults = ['no skill', 'no hours', 'bad hours'] as const
    const none: PlannedFinish = { revision: 1000, range: null, faults }
    expect(ready(inWork(), expecting({ finish: none }))[0]).toBe(
      'We can give no date yet: nobody here can do part of the work at present; part of the work cannot be planned.',
    )
    const paused = inWork().add('visitStatusSet', {
      visitId: visitId('first'),
      status: 'paused',
      reason: '',
    })
    expect(ready(paused, null)[0]).toBe('While the work is paused we can give no date for its end.')
  })

  it('says what it means for the promised date', () => {
    const doubtful = expecting({ finish: finish('2026-12-14', '2026-12-22') })
    expect(ready(inWork(), doubtful).at(-1)).toBe(
      `${PROMISED} As it looks now we may keep it, but we cannot be sure of it.`,
    )
    const late = expecting({ finish: finish('2026-12-21', '2026-12-22') })
    expect(ready(inWork(), late).at(-1)).toBe(
      `${PROMISED} As it looks now we shall not keep it, and we are sorry for that.`,
    )
  })

  it('says what answer it counts on', () => {
    const car = inWork()
      .at('2026-11-20T09:00')
      .vary('Second patch.', [{ target: onGate('Boot floor', 'fabricated'), hours: 4 }])
    expect(ready(car, expecting())[0]).toMatch(/ That counts on your answer on ‘Second patch’ coming soon\.$/)
    car.add('decisionExpected', { variationId: variationId('Second patch.'), expected: '2026-12-02' })
    expect(ready(car, expecting())[0]).toMatch(/ on ‘Second patch’ by Wed 2 Dec\.$/)
    car.vary('Third', [{ target: onGate('Boot floor', 'sealed'), hours: 1 }])
    expect(ready(car, expecting())[0]).toMatch(/ That counts on your answers coming soon\.$/)
  })
})

describe('a finish that moved', () => {
  const before = finish('2026-12-08', '2026-12-11', 0)
  const NO_CAUSE = 'No single thing moved it: it follows from how the work in our workshop went.'

  it('is compared with what was expected at the end of last week', () => {
    const same = expecting({ before: finish('2026-12-10', '2026-12-17', 0) })
    expect(ready(inWork(), same)[1]).toBe('That has not changed since the end of last week.')
    expect(ready(inWork(), expecting({ before }))[1]).toBe(
      `At the end of last week we expected to be done by Fri 11 Dec: it is now six days later. ${NO_CAUSE}`,
    )
    const sooner = expecting({ before: finish('2026-12-10', '2026-12-18', 0) })
    expect(ready(inWork(), sooner)[1]).toMatch(/done by Fri 18 Dec: it is now one day sooner\. /)
    const weeks = expecting({ before: finish('2026-12-01', '2026-12-03', 0) })
    expect(ready(inWork(), weeks)[1]).toMatch(/done by Thu 3 Dec: it is now two weeks later\. /)
    const none = expecting({ before: { revision: 0, range: null, faults: [] } })
    expect(ready(inWork(), none)[1]).toBe('At the end of last week we could give no date yet.')
  })

  it('names what came in between, the weightiest first and three at most', () => {
    const part = partIdSchema.parse('part-hinge')
    const car = inWork()
      .at('2026-11-19T09:00')
      .add('partNeeded', { partId: part, repairId: repairId('Boot floor'), gate: 'welded', name: 'Hinge' })
      .add('partMoved', { partId: part, state: 'ordered', expected: '2026-11-30', reason: '' })
      .vary('Second patch.', [{ target: onGate('Boot floor', 'fabricated'), hours: 6.5 }])
      .passTo('Sill, left', 'sealed')
      .at('2026-11-24T09:00')
      .add('partMoved', { partId: part, state: 'ordered', expected: '2026-12-07', reason: '' })
      .decide('Second patch.', 'accepted')
      .reopen('Sill, left', 'sealed')
      .passTo('Boot floor', 'assessed')
    expect(ready(car, expecting({ before }))[1]?.split('. ')[1]).toBe(
      'What came in between: ‘Second patch’ was agreed (6.5 h more); some of the work had to be done again; a part comes later than we were told (‘Hinge’).',
    )
    expect(ready(car, expecting({ before: { ...before, revision: 999 } }))[1]).toMatch(/No single thing/)
  })

  it('names nothing that would have moved it the other way', () => {
    const car = inWork()
      .at('2026-11-24T09:00')
      .reopen('Sill, left', 'opened')
      .passTo('Boot floor', 'assessed')
    const sooner = expecting({ before: finish('2026-12-17', '2026-12-18', 0), elsewhere: ['people'] })
    expect(ready(car, sooner)[1]).toMatch(
      /sooner\. What came in between: we now know what one repair holds inside\.$/,
    )
    expect(ready(car, expecting({ before }))[1]).toMatch(/had to be done again; we now know what one repair/)
  })

  it('names what changed for the whole workshop, without saying who', () => {
    const expected = expecting({ before, elsewhere: ['people'] })
    expect(ready(inWork(), expected)[1]).toMatch(
      / What came in between: fewer people are at work here than we had counted on\.$/,
    )
  })
})

describe('what changed in the workshop between two plans', () => {
  const person = { personId: personId('Joss'), roles: ['technician' as const], skills: [], week: null }
  const off = (from: string) => ({ from, to: from })
  const facts = [
    fact('personAdded', { ...person, absences: [] }),
    fact('personChanged', { ...person, absences: [off('2026-12-01')], active: true }),
    fact('personChanged', { ...person, absences: [off('2026-12-01'), off('2026-12-02')], active: true }),
    fact('personChanged', { ...person, absences: [off('2026-12-02')], active: true }),
    fact('personChanged', { ...person, absences: [], active: false }),
  ].map((each, index) => ({ ...each, number: index + 1 }) as Fact)

  it('is an absence more, and somebody who left, but no absence that is over', () => {
    const between = (after: number, upTo: number) => elsewhereChanges(facts, { after, upTo })
    expect(between(2, 3)).toEqual(['people'])
    expect(between(3, 4)).toEqual([])
    expect(between(4, 5)).toEqual(['people'])
    expect(between(5, 9)).toEqual([])
  })

  it('is another absence in the place of one that is over, and nobody who comes with some', () => {
    const another = [
      fact('personAdded', { ...person, absences: [off('2026-12-01')] }),
      fact('personChanged', { ...person, absences: [off('2026-12-03')], active: true }),
    ].map((each, index) => ({ ...each, number: index + 1 }) as Fact)
    expect(elsewhereChanges(another, { after: 0, upTo: 1 })).toEqual([])
    expect(elsewhereChanges(another, { after: 1, upTo: 2 })).toEqual(['people'])
  })
})

describe('the hours that may come', () => {
  const said = (
    band: { readonly p50: number; readonly p80: number },
    car: CarBuilder = inWork(),
    charged: { readonly p50: number; readonly p80: number } | null = band,
  ) => {
    work(car.at('2026-11-24T09:00'), 'first', '2026-11-24', 5)
    return linesOf(reportOn(car, { expected: expecting({ hours: { all: band, charged } }) }), 'Hours').slice(
      2,
    )
  }
  const capped = () =>
    inWork().add('visitChanged', {
      visitId: visitId('first'),
      promised: null,
      priority: 1,
      charge: { by: 'capped', capHours: 30 },
    })
  const BEYOND = 'You pay for nothing beyond that unless you have agreed to it first.'
  const CARRIED = 'The hours above the cap are ours, and you do not pay for them.'

  it('stand beside what is agreed, 32 h here, with what they mean', () => {
    expect(said({ p50: 27.2, p80: 31.6 })).toEqual([
      'We expect the whole visit to come to about 27 h, and in four cases of five to no more than 32 h.',
      'That is within what is agreed.',
    ])
    expect(said({ p50: 31, p80: 36 })[1]).toBe(
      `It is likely to stay within what is agreed, but it may not. ${BEYOND}`,
    )
    expect(said({ p50: 38, p80: 38.2 })).toEqual([
      'We expect the whole visit to come to about 38 h.',
      `That is about 6 h more than what is agreed. ${BEYOND}`,
    ])
  })

  it('count what waits for an answer', () => {
    const car = inWork().vary('Second patch', [{ target: onGate('Boot floor', 'welded'), hours: 8 }])
    expect(said({ p50: 38, p80: 44 }, car).slice(1)).toEqual([
      'We expect the whole visit to come to about 38 h, and in four cases of five to no more than 44 h. That counts what waits for an answer too.',
      `It is likely to stay within what is agreed and what we have asked for, but it may not. ${BEYOND}`,
    ])
  })

  it('above a cap are the workshop’s', () => {
    expect(said({ p50: 25, p80: 29 }, capped())[2]).toBe('That is within the cap.')
    expect(said({ p50: 28, p80: 36 }, capped())[2]).toBe(
      `It is likely to stay within the cap of 30.0 h, but it may not. ${CARRIED}`,
    )
    expect(said({ p50: 33, p80: 40 }, capped())[2]).toBe(
      `That is about 3 h above the cap of 30.0 h. ${CARRIED}`,
    )
    // What the workshop pays for by itself uses up no cap.
    expect(said({ p50: 33, p80: 40 }, capped(), { p50: 20, p80: 24 })[2]).toBe('That is within the cap.')
  })

  it('are those of the whole visit, and are not told of a fixed price or a visit that is over', () => {
    const history = createEstimateHistory([])
    const hoursOf = (car: CarBuilder) => {
      const week = { year: 2026, week: 48 }
      const input = { facts: car.facts(), visitId: visitId('first'), week, workshop: buildWorkshop(), nameOf }
      return expectedHours(tellingCar({ ...input, now: Date.parse('2026-11-27T15:00:00Z') })!, history)
    }
    const bands = hoursOf(inWork())!
    expect(bands.all.p50).toBeGreaterThan(32)
    expect(bands.all.p80).toBeGreaterThan(bands.all.p50)
    expect(bands.charged).toEqual(bands.all)
    const shared = hoursOf(
      inWork().repair('Scuttle').estimate(onGate('Scuttle', 'opened'), 8, { payer: 'workshop' }),
    )!
    expect(shared.charged!.p50).toBeLessThan(shared.all.p50 - 5)
    const charge = { by: 'fixed' } as const
    const fixed = inWork().add('visitChanged', {
      visitId: visitId('first'),
      promised: null,
      priority: 1,
      charge,
    })
    expect(hoursOf(fixed)).toBeNull()
    expect(hoursOf(inWork().passTo('Sill, left', 'painted').passTo('Boot floor', 'painted'))).toBeNull()
  })
})

describe('the people who did the work', () => {
  const done = () => {
    const car = inWork().task('Strip').at('2026-11-24T09:00').by('Wren').passTo('Boot floor', 'opened')
    work(car, 'one', '2026-11-24', 3)
    return car
      .log('two', 'Ines', { kind: 'day', date: '2026-11-24', hours: 2 }, [onTask('Strip')])
      .add('taskSigned', { taskId: 'task-strip' as never, did: [personId('Ines')], note: '' })
  }

  it('are named only where the manager wants it', () => {
    const named = reportOn(done(), { choices: choicesOf({ names: true }) })
    expect(linesOf(named, DID)).toEqual([
      'Boot floor',
      'On Tue 24 Nov we opened it up.',
      'The work was done by Joss and Wren.',
      'Work on the whole car: strip by Ines (Tue 24 Nov).',
    ])
    expect(JSON.stringify(reportOn(done()))).not.toMatch(/Joss|Wren|Ines/)
    expect(sectionOf(reportOn(done()), DID)).toBeDefined()
  })
})
