import { describe, expect, it } from 'vitest'
import { fitGroupIdSchema, partIdSchema, readingIdSchema } from '../../../domain/ids.ts'
import {
  buildCar,
  type CarBuilder,
  onGate,
  repairId,
  variationId,
  visitId,
} from '../../support/car-builder.ts'
import { linesOf, reportOn, sectionOf } from '../../support/owner-report.ts'
import {
  NEEDS,
  DID,
  TROUBLE,
  STANDS,
  NEXT,
  READY,
  KNOW,
  DECIDED,
  inWork,
} from '../../support/report-cases.ts'

describe('a decision that waits', () => {
  const asked = (): CarBuilder =>
    inWork()
      .at('2026-11-20T09:00')
      .vary('Second patch.', [
        { target: onGate('Boot floor', 'fabricated'), hours: 4 },
        { target: onGate('Boot floor', 'welded'), hours: 2.5 },
      ])

  it('comes first, with why, how much more and what happens if not', () => {
    const report = reportOn(asked())
    expect(report.sections[0]?.heading).toBe(NEEDS)
    expect(linesOf(report, NEEDS)).toEqual([
      'Second patch',
      'Found behind the closing plate. We asked you on Fri 20 Nov.',
      'It takes 6.5 h more than agreed (Boot floor).',
      'If you decide against it: it stays as found.',
      'Please tell us whether we may do it.',
    ])
    expect(report.opening.at(-1)).toBe('One decision waits for you: please read ‘What we need from you’.')
  })

  it('is said in the plural when there are more', () => {
    const car = asked().vary('Third patch', [{ target: onGate('Boot floor', 'sealed'), hours: 1 }])
    expect(reportOn(car).opening.at(-1)).toBe(
      'Two decisions wait for you: please read ‘What we need from you’.',
    )
  })

  it('is told as what the next gate waits for', () => {
    const car = asked().at('2026-11-21T09:00').passTo('Boot floor', 'assessed')
    expect(linesOf(reportOn(car), NEXT)).toContain('Boot floor: it waits for your answer on ‘Second patch’.')
  })

  it('is told as decided once it is answered', () => {
    const car = asked().at('2026-11-24T09:00').decide('Second patch.', 'accepted')
    expect(sectionOf(reportOn(car), NEEDS)).toBeUndefined()
    expect(linesOf(reportOn(car), DECIDED)).toEqual([
      'You accepted ‘Second patch’ on Tue 24 Nov (6.5 h more).',
    ])
  })

  it('says how few and how many hours it may become, and what was changed in the answer', () => {
    const target = onGate('Boot floor', 'fabricated')
    const id = variationId('Channel')
    const car = inWork()
      .at('2026-11-20T09:00')
      .add('variationRaised', {
        variationId: id,
        visitId: visitId('first'),
        payer: 'owner',
        title: 'Channel',
        why: 'holed',
        ifNot: '',
        findings: [],
        attachments: [],
        lines: [{ target, hours: 6, low: 4, high: 11 }],
        costs: [],
      })
    expect(linesOf(reportOn(car), NEEDS)).toContain(
      'It takes 6.0 h more than agreed (Boot floor). It may become 4.0 h at the least and 11.0 h at the most.',
    )
    const changed = { lines: [{ target, hours: 4 }], costs: [] }
    const answer = { decision: 'accepted', changed, how: 'call', note: '' } as const
    car.at('2026-11-24T09:00').add('variationDecided', { variationId: id, ...answer })
    expect(linesOf(reportOn(car), DECIDED)).toEqual([
      'You accepted ‘Channel’ with changes on Tue 24 Nov (4.0 h more).',
    ])
  })

  it('asks for the estimate that is not accepted', () => {
    const car = inWork().repair('Scuttle').estimate(onGate('Scuttle', 'opened'), 3, { accepted: false })
    expect(linesOf(reportOn(car), NEEDS)).toEqual([
      'The estimate',
      '3.0 h of our estimate wait for your answer: Scuttle.',
      'Please tell us which of it we may do. We do not begin it before.',
    ])
  })

  it('asks for no hours of work that fell away: retired, or not needed', () => {
    const car = inWork()
      .repair('Scuttle')
      .estimate(onGate('Scuttle', 'opened'), 3, { accepted: false })
      .estimate(onGate('Scuttle', 'sealed'), 2, { accepted: false })
      .notNeeded('Scuttle', 'sealed')
      .repair('Gutter')
      .estimate(onGate('Gutter', 'opened'), 4, { accepted: false })
      .add('repairRetired', { repairId: repairId('Gutter'), reason: 'It is sound.' })
    expect(linesOf(reportOn(car), NEEDS)[1]).toBe('3.0 h of our estimate wait for your answer: Scuttle.')
  })

  it('asks the owner nothing that another pays for', () => {
    const car = inWork()
      .repair('Scuttle')
      .estimate(onGate('Scuttle', 'opened'), 3, { accepted: false, payer: 'insurer' })
    expect(sectionOf(reportOn(car), NEEDS)).toBeUndefined()
    expect(linesOf(reportOn(car), NEXT)).toContain(
      'Scuttle: it waits for the insurer’s answer on the estimate.',
    )
  })
})

describe('a part that is waited for', () => {
  const waiting = (expected: string) => {
    const partId = partIdSchema.parse('part-hinge')
    const car = inWork()
      .at('2026-11-20T09:00')
      .add('partNeeded', { partId, repairId: repairId('Boot floor'), gate: 'opened', name: 'Hinge' })
      .add('partMoved', { partId, state: 'ordered', expected, reason: '' })
    return linesOf(reportOn(car), NEXT).find((line) => line.startsWith('Boot floor'))
  }

  it('is expected on its day still, and said to be late from the next day on', () => {
    expect(waiting('2026-11-27')).toBe(
      'Boot floor: it waits for a part, ‘Hinge’, which is ordered and expected on Fri 27 Nov.',
    )
    expect(waiting('2026-11-26')).toBe(
      'Boot floor: it waits for a part, ‘Hinge’, which was expected on Thu 26 Nov and has not come.',
    )
  })
})

describe('rework', () => {
  const redone = (): CarBuilder => {
    const car = inWork().at('2026-11-10T09:00').passTo('Boot floor', 'trial-fitted')
    car.at('2026-11-24T10:00').reopen('Boot floor', 'trial-fitted')
    return car.log(
      'again',
      'Joss',
      { kind: 'span', start: '2026-11-24T11:00:00Z', end: '2026-11-24T13:30:00Z' },
      [onGate('Boot floor', 'trial-fitted')],
      { cause: 'fit' },
    )
  }

  it('is named with its cause, and its hours are said', () => {
    expect(linesOf(reportOn(redone()), TROUBLE)).toEqual([
      'Boot floor: on Tue 24 Nov we took back the fit of the panels around it, because it did not fit (the edge stands proud).',
      '2.5 h of this week went into work that had been done before, because it did not fit.',
    ])
    expect(reportOn(redone()).opening[0]).toBe(
      'This week we took back one step of the work and worked 2.5 h. Some of it was work done again; we say below why.',
    )
  })

  it('on a gate that was passed and not taken back is said without a cause that nobody stated', () => {
    const car = inWork()
      .at('2026-11-10T09:00')
      .passTo('Boot floor', 'trial-fitted')
      .log('again', 'Joss', { kind: 'span', start: '2026-11-24T11:00:00Z', end: '2026-11-24T13:30:00Z' }, [
        onGate('Boot floor', 'trial-fitted'),
      ])
    expect(linesOf(reportOn(car), TROUBLE)).toEqual([
      '2.5 h of this week went into work that had been done before.',
    ])
    expect(reportOn(car).opening[0]).toMatch(/Some of it was work done again\.$/)
  })

  it('says when it has been done again since', () => {
    const car = redone().at('2026-11-26T09:00').pass('Boot floor', 'trial-fitted')
    expect(linesOf(reportOn(car), TROUBLE)[0]).toMatch(/ It has been done again since\.$/)
  })

  it('owns up to a fit that was not good', () => {
    const groupId = fitGroupIdSchema.parse('group-boot-opening')
    const fit = (id: string, good: boolean, note: string) => ({
      readingId: readingIdSchema.parse(`fit-up-${id}`),
      groupId,
      kind: 'full' as const,
      readings: [],
      good,
      note,
    })
    const car = inWork()
      .add('fitGroupSet', {
        groupId,
        name: 'Boot opening',
        members: [repairId('Boot floor')],
        hungParts: ['boot lid'],
        edges: [],
      })
      .at('2026-11-24T09:00')
      .add('fitUpRecorded', fit('one', false, 'the lid touches at the left corner.'))
      .at('2026-11-26T09:00')
      .add('fitUpRecorded', fit('two', true, ''))
    expect(linesOf(reportOn(car), TROUBLE)).toEqual([
      'The fit of the boot opening was not good on Tue 24 Nov: the lid touches at the left corner. On Thu 26 Nov it was good.',
    ])
  })
})

describe('the first week', () => {
  it('says that the visit began and how many repairs are listed', () => {
    const first = { week: { year: 2026, week: 45 }, now: Date.parse('2026-11-06T15:00:00Z') }
    expect(reportOn(inWork(), first).opening[0]).toBe(
      'This is our first report on this visit, which began on Mon 2 Nov. Two repairs are listed.',
    )
    expect(reportOn(buildCar().repair('Scuttle'), first).opening[0]).toContain('One repair is listed.')
    expect(reportOn(inWork()).opening[0]).not.toContain('first report')
  })
})

describe('the last week', () => {
  const delivered = (): CarBuilder =>
    inWork()
      .at('2026-11-19T09:00')
      .passTo('Boot floor', 'painted')
      .passTo('Sill, left', 'painted')
      .at('2026-11-24T09:00')
      .add('visitStatusSet', { visitId: visitId('first'), status: 'finished', reason: '' })
      .at('2026-11-26T16:00')
      .add('visitStatusSet', { visitId: visitId('first'), status: 'delivered', reason: '' })

  it('says that the car was handed over and promises nothing more', () => {
    const report = reportOn(delivered())
    expect(report.opening).toEqual([
      'The car was handed over on Thu 26 Nov. This is our last report on this visit.',
    ])
    expect(sectionOf(report, NEXT)).toBeUndefined()
    expect(sectionOf(report, READY)).toBeUndefined()
    expect(linesOf(report, STANDS)).toEqual(['Finished: Sill, left, and Boot floor.'])
  })

  it('leaves a warranty visit of the same week to a report of its own', () => {
    const car = delivered().at('2026-11-27T09:00').visit('warranty', { kind: 'warranty', promised: null })
    car.repair('Boot seam').agree('Boot seam').passTo('Boot seam', 'opened')
    expect(JSON.stringify(reportOn(car))).not.toContain('Boot seam')
    const own = reportOn(car, { visitId: visitId('warranty') })
    expect(own.opening[0]).toContain('This is our first report on the warranty visit')
    expect(linesOf(own, DID)).toContain('Boot seam')
    expect(sectionOf(own, 'Hours')).toBeUndefined()
  })
})

describe('metal closed as found', () => {
  const asFound = (moment: string): CarBuilder =>
    inWork()
      .at('2026-11-05T09:00')
      .passTo('Sill, left', 'assessed')
      .at(moment)
      .add('closedAsFound', {
        repairId: repairId('Sill, left'),
        variationId: null,
        attachments: [],
        protection: 'wax into the cavity.',
        answer: 'Leave it.',
        cautionShown: true,
      })

  it('is told in full in its week, with the caution on load-bearing metal', () => {
    expect(linesOf(reportOn(asFound('2026-11-24T09:00')), KNOW)).toEqual([
      'Sill, left was closed as found on Tue 24 Nov: the damage is still there. Your answer was: leave it. What could be done to protect it: wax into the cavity. It is load-bearing metal: have it inspected before the car is driven, and follow the local rules.',
    ])
  })

  it('is named in every later report', () => {
    expect(linesOf(reportOn(asFound('2026-11-12T09:00')), KNOW)).toEqual([
      'Sill, left was closed as found on Thu 12 Nov.',
    ])
  })
})
