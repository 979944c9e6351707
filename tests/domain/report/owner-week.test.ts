import { describe, expect, it } from 'vitest'
import { reportPhotos } from '../../../domain/report/owner-week-shapes.ts'
import {
  attachmentIdSchema,
  awayIdSchema,
  findingIdSchema,
  fitGroupIdSchema,
  partyIdSchema,
  readingIdSchema,
  reportIdSchema,
} from '../../../domain/ids.ts'
import { ownerWeek } from '../../../domain/report/owner-week.ts'
import {
  buildCar,
  type CarBuilder,
  onGate,
  onTask,
  repairId,
  variationId,
  visitId,
} from '../../support/car-builder.ts'
import { linesOf, reportOn, sectionOf } from '../../support/owner-report.ts'
import { layerId, noAsks } from '../../support/plans.ts'
import { buildWorkshop, nameOf } from '../../support/workshop-builder.ts'

const NEEDS = 'What we need from you'
const FOUND = 'What we found'
const DID = 'What we did'
const TROUBLE = 'What did not go to plan'
const STANDS = 'Where each repair stands'
const NEXT = 'What comes next'
const READY = 'When it will be ready'
const KNOW = 'What you should know'
const DECIDED = 'What was decided'

/** In work since Mon 2 Nov: a sill and a boot floor, agreed at 2 h a gate. */
const inWork = (): CarBuilder =>
  buildCar()
    .repair('Sill, left', { loadBearing: true, zone: { side: 'left', place: 'middle' } })
    .repair('Boot floor')
    .agree('Sill, left')
    .agree('Boot floor')

const graded = (
  car: CarBuilder,
  repair: string,
  layer: string,
  grade: 'pitted' | 'holed' | 'surface' | 'sound',
) =>
  car.add('layerGraded', {
    repairId: repairId(repair),
    layerId: layerId(repair, layer),
    grade,
    judgedBy: '',
    remainingMm: grade === 'pitted' ? 0.75 : null,
    decision:
      grade === 'sound' ? 'keep' : grade === 'surface' ? 'treat' : grade === 'pitted' ? 'patch' : 'replace',
  })

const found = (car: CarBuilder, id: string) =>
  car.add('findingAdded', {
    findingId: findingIdSchema.parse(`finding-${id}`),
    repairId: repairId('Boot floor'),
    layerId: layerId('Boot floor', 'inner'),
    kind: 'corrosion',
    grade: 'holed',
    extent: '120 mm along the flange.',
    needs: 'a new flange, 150 mm long',
    attachments: [],
  })

const work = (car: CarBuilder, id: string, date: string, hours: number, repair = 'Boot floor') =>
  car.log(id, 'Joss', { kind: 'day', date, hours }, [onGate(repair, 'fabricated')])

describe('the head of a report', () => {
  it('names the owner, the car, the week with its dates and the day it speaks of', () => {
    expect(reportOn(inWork())).toMatchObject({
      workshop: 'Harrow Lane',
      greeting: 'Dear Owner,',
      title: 'Dunmere Saloon, shell 0412',
      subtitle: 'Week 48, 23 to 29 Nov 2026',
      week: '2026-W48',
      asOf: '2026-11-27',
    })
  })

  it('speaks of the Sunday of a week that is over', () => {
    expect(reportOn(inWork(), { now: Date.parse('2026-12-09T10:00:00Z') }).asOf).toBe('2026-11-29')
  })

  it('keeps the words of the manager, paragraph by paragraph', () => {
    const words = 'The sun shone.\r\n\r\n  We  oiled the doors. \n'
    expect(reportOn(inWork(), { words }).words).toEqual(['The sun shone.', 'We oiled the doors.'])
  })

  it('is none before the visit was known', () => {
    const input = { facts: inWork().facts(), visitId: visitId('first'), workshop: buildWorkshop(), nameOf }
    const more = { now: Date.parse('2026-11-27T15:00:00Z'), words: '', photos: null }
    expect(ownerWeek({ ...input, ...more, week: { year: 2026, week: 44 } })).toBeNull()
  })
})

describe('a quiet week', () => {
  it('says that nothing was done and that nothing on the car holds it up', () => {
    const report = reportOn(inWork())
    expect(report.opening).toEqual([
      'This week we did no work on your car. Nothing on the car itself holds the work up: it waits its turn.',
    ])
    expect(sectionOf(report, FOUND)).toBeUndefined()
    expect(sectionOf(report, DID)).toBeUndefined()
    expect(sectionOf(report, TROUBLE)).toBeUndefined()
  })

  it('says what it waits for when everything waits', () => {
    const car = inWork().at('2026-11-20T09:00')
    car.add('holdSet', {
      holdId: 'hold-visit-of-inspector' as never,
      scope: { kind: 'car' },
      words: 'The inspector comes first',
      clears: 'the inspector',
      expected: '2026-12-02',
    })
    expect(reportOn(car).opening[0]).toBe(
      'This week we did no work on your car, because it waits. Sill, left: the inspector comes first; expected Wed 2 Dec.',
    )
  })

  it('says since when a visit is paused, and why when it was paused this week', () => {
    const paused = (moment: string) =>
      inWork()
        .at(moment)
        .add('visitStatusSet', {
          visitId: visitId('first'),
          status: 'paused',
          reason: 'You asked us to wait.',
        })
    expect(reportOn(paused('2026-11-25T10:00')).opening).toEqual([
      'This week we did no work on your car: it has been paused since Wed 25 Nov: you asked us to wait.',
    ])
    expect(reportOn(paused('2026-11-11T10:00')).opening).toEqual([
      'This week we did no work on your car: it has been paused since Wed 11 Nov.',
    ])
  })

  it('says that the shell is away, where the facts say so', () => {
    const car = inWork()
      .at('2026-11-18T10:00')
      .add('shellSentAway', {
        awayId: awayIdSchema.parse('away-dipping'),
        firmId: partyIdSchema.parse('party-firm'),
        what: 'dipping',
        from: '2026-11-18',
        expected: '2026-12-01',
      })
    expect(reportOn(car).opening[0]).toBe(
      'This week we did no work on your car: the shell is away (dipping) and expected back on Tue 1 Dec.',
    )
  })
})

describe('a busy week', () => {
  const busy = (): CarBuilder => {
    const car = inWork().at('2026-11-23T09:00').passTo('Boot floor', 'opened')
    graded(car, 'Boot floor', 'inner', 'pitted')
    graded(car, 'Boot floor', 'closing', 'holed')
    car.at('2026-11-24T09:00').pass('Boot floor', 'assessed')
    work(car, 'first', '2026-11-24', 6.5)
    return car
  }

  it('counts what was done in singular and plural', () => {
    const car = busy()
    expect(reportOn(car).opening).toEqual(['This week we passed 2 gates on 1 repair and worked 6.5 h.'])
    found(car, 'first')
    expect(reportOn(car).opening[0]).toContain('found one thing worth your attention')
    found(car, 'second')
    expect(reportOn(car).opening[0]).toContain('found 2 things worth your attention')
  })

  it('says what each layer is, what that means and what happens to it', () => {
    expect(linesOf(reportOn(busy()), FOUND)).toEqual([
      'Boot floor',
      'The inner panel is pitted: eaten into, but not through. Where it is thinnest, 0.75 mm of 1.6 mm is left. We will cut out what is bad and let in a patch.',
      'The closing plate is holed: rusted through in places. We will make a new one.',
    ])
  })

  it('says what was done, with the day of each step', () => {
    expect(linesOf(reportOn(busy()), DID)).toEqual([
      'Boot floor',
      'We opened it up (Mon 23 Nov) and judged it layer by layer (Tue 24 Nov).',
    ])
  })

  it('says what was done to a layer once it is repaired', () => {
    const car = busy().add('layersMarked', {
      repairId: repairId('Boot floor'),
      layerIds: [layerId('Boot floor', 'inner')],
      mark: 'repaired',
    })
    expect(linesOf(reportOn(car), FOUND)[1]).toContain('We have let in a patch.')
  })

  it('says when a repair is closed and when it is finished', () => {
    const car = busy().at('2026-11-26T09:00').passTo('Boot floor', 'welded')
    expect(linesOf(reportOn(car), DID)[1]).toMatch(
      /welded the closing panel on \(Thu 26 Nov\)\. It is closed now\.$/,
    )
    car.passTo('Boot floor', 'painted')
    expect(linesOf(reportOn(car), DID)[1]).toMatch(
      /gave it its protective coat \(Thu 26 Nov\)\. It is finished\.$/,
    )
  })

  it('says when a gate was not needed, and why', () => {
    const car = busy().notNeeded('Boot floor', 'sealed')
    expect(linesOf(reportOn(car), DID)).toContain(
      'The gate ‘sealed’ is not needed here: nothing to do there.',
    )
  })

  it('says that work goes on where no gate was passed', () => {
    const car = inWork().at('2026-11-10T09:00').passTo('Boot floor', 'assessed')
    work(car, 'first', '2026-11-24', 3)
    expect(linesOf(reportOn(car), DID)).toEqual(['Boot floor', 'We worked on it; it is not fabricated yet.'])
  })

  it('tells tasks on the whole car', () => {
    const car = inWork()
      .task('Strip the shell')
      .estimate(onTask('Strip the shell'), 4)
      .at('2026-11-24T09:00')
      .add('taskSigned', { taskId: 'task-strip-the-shell' as never, did: [], note: '' })
    expect(linesOf(reportOn(car), DID)).toEqual(['Work on the whole car: strip the shell (Tue 24 Nov).'])
    expect(reportOn(car).opening[0]).toBe('This week we did 1 task on the whole car.')
  })

  it('tells nothing that happened before or after the week', () => {
    const car = busy().at('2026-11-30T00:00').passTo('Boot floor', 'fabricated')
    const report = reportOn(car, { now: Date.parse('2026-12-03T12:00:00Z') })
    expect(linesOf(report, DID)[1]).not.toContain('new metal')
    expect(linesOf(report, STANDS)).toContain('2 of 8 gates are done; fabricated comes next.')
    const next = reportOn(car, {
      week: { year: 2026, week: 49 },
      now: Date.parse('2026-12-03T12:00:00Z'),
    })
    expect(linesOf(next, DID)[1]).toBe('We made the new metal and let it in (Mon 30 Nov).')
    expect(sectionOf(next, FOUND)).toBeUndefined()
  })

  it('names no technician', () => {
    expect(JSON.stringify(reportOn(busy()))).not.toMatch(/Joss|Mara/)
  })
})

describe('bad news', () => {
  it('says what was found, how bad it is, what it needs and that it goes beyond the agreement', () => {
    const car = inWork().at('2026-11-10T09:00').passTo('Boot floor', 'assessed').at('2026-11-25T11:00')
    found(car, 'flange')
    car.add('variationRaised', {
      variationId: variationId('New flange'),
      visitId: visitId('first'),
      payer: 'owner',
      title: 'New flange',
      why: 'the flange is rusted through',
      ifNot: 'The floor stays weak.',
      findings: [findingIdSchema.parse('finding-flange')],
      attachments: [],
      lines: [{ target: onGate('Boot floor', 'fabricated'), hours: 6.5 }],
    })
    expect(linesOf(reportOn(car), FOUND)).toEqual([
      'Boot floor',
      'On Wed 25 Nov we found rust on the inner panel: 120 mm along the flange. The metal there is holed: rusted through in places. What it needs: a new flange, 150 mm long. This goes beyond what is agreed; it waits for your answer.',
    ])
  })

  it('names a fault that stands', () => {
    const car = inWork()
      .at('2026-11-10T09:00')
      .passTo('Boot floor', 'welded')
      .at('2026-11-24T09:00')
      .repair('Seat pan')
    car.cover('Boot floor', 'Seat pan')
    expect(linesOf(reportOn(car), KNOW)).toEqual([
      'Boot floor is closed although Seat pan behind it is not finished. It must be opened again.',
    ])
  })

  it('names a check that was set aside, with the reason', () => {
    const car = inWork()
      .at('2026-11-24T09:00')
      .add('holdReleased', {
        repairId: repairId('Boot floor'),
        gate: 'primed',
        code: 'conditions',
        subject: 'conditions',
        reason: 'The hygrometer broke.',
        ownHold: false,
      })
    expect(linesOf(reportOn(car), KNOW)).toEqual([
      'Boot floor: on Tue 24 Nov the manager set aside a check before the gate ‘primed’ (conditions). The reason: The hygrometer broke.',
    ])
  })

  it('says that the promised day has passed', () => {
    const car = inWork()
      .at('2026-11-09T09:00')
      .add('visitChanged', {
        visitId: visitId('first'),
        promised: '2026-11-25',
        priority: 1,
        charge: { by: 'hour' },
      })
    expect(linesOf(reportOn(car), READY)).toEqual([
      'The promised date is Wed 25 Nov, as before.',
      'That day has passed and the car is not finished.',
    ])
  })
})

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
      'It takes 6.5 h more than agreed, on boot floor.',
      'If you decide against it: it stays as found.',
      'Please tell us whether we may do it.',
    ])
    expect(report.opening.at(-1)).toBe('One decision waits for you: please read ‘What we need from you’.')
  })

  it('is said in the plural when there are more', () => {
    const car = asked().vary('Third patch', [{ target: onGate('Boot floor', 'sealed'), hours: 1 }])
    expect(reportOn(car).opening.at(-1)).toBe(
      '2 decisions wait for you: please read ‘What we need from you’.',
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

  it('asks for the estimate that is not accepted', () => {
    const car = inWork().repair('Scuttle').estimate(onGate('Scuttle', 'opened'), 3, { accepted: false })
    expect(linesOf(reportOn(car), NEEDS)).toEqual([
      'The estimate',
      'We have estimated 3.0 h that you have not accepted yet, on scuttle.',
      'Please tell us which of it we may do. We do not begin it before.',
    ])
  })

  it('asks the owner nothing that another pays for', () => {
    const car = inWork()
      .repair('Scuttle')
      .estimate(onGate('Scuttle', 'opened'), 3, { accepted: false, payer: 'insurer' })
    expect(sectionOf(reportOn(car), NEEDS)).toBeUndefined()
    expect(linesOf(reportOn(car), NEXT)).toContain(
      "Scuttle: it waits for the insurer's answer on the estimate.",
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
      'Boot floor: on Tue 24 Nov we took back the gate ‘trial-fitted’, because it did not fit (the edge stands proud).',
      '2.5 h of this week went into work that had been done before.',
    ])
    expect(reportOn(redone()).opening[0]).toBe(
      'This week we worked 2.5 h. Some of it was work done again; we say below why.',
    )
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
      'This is our first report on this visit, which began on Mon 2 Nov. 2 repairs are listed.',
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
    expect(linesOf(report, STANDS)).toEqual(['Finished: Sill, left; and Boot floor.'])
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
      'Sill, left was closed as found on Tue 24 Nov: the damage is still there. Your answer was: Leave it. What could be done to protect it: wax into the cavity. It is load-bearing metal: have it inspected before the car is driven, and follow the local rules.',
    ])
  })

  it('is named in every later report', () => {
    expect(linesOf(reportOn(asFound('2026-11-12T09:00')), KNOW)).toEqual([
      'Sill, left was closed as found on Thu 12 Nov.',
    ])
  })
})

describe('hours', () => {
  const worked = (car = inWork()): CarBuilder => {
    work(car, 'before', '2026-11-12', 10)
    work(car, 'monday', '2026-11-23', 5)
    work(car, 'sunday', '2026-11-29', 2.5, 'Sill, left')
    work(car, 'after', '2026-11-30', 3)
    return car
  }

  it('are told for the week and to date against what is agreed, each with its unit', () => {
    const report = reportOn(worked(), { now: Date.parse('2026-12-02T12:00:00Z') })
    expect(linesOf(report, 'Hours')).toEqual([
      'Sill, left | 2.5 h | 2.5 h | 16.0 h',
      'Boot floor | 5.0 h | 15.0 h | 16.0 h',
      'All work | 7.5 h | 17.5 h | 32.0 h',
    ])
  })

  it('are no matter of a fixed price', () => {
    const fixed = { visitId: visitId('first'), promised: null, priority: 1, charge: { by: 'fixed' as const } }
    const report = reportOn(worked(inWork().add('visitChanged', fixed)))
    expect(sectionOf(report, 'Hours')).toBeUndefined()
    expect(report.opening[0]).not.toContain(' h')
  })

  it('name the cap where there is one', () => {
    const capped = {
      visitId: visitId('first'),
      promised: null,
      priority: 1,
      charge: { by: 'capped' as const, capHours: 30 },
    }
    expect(linesOf(reportOn(worked(inWork().add('visitChanged', capped))), 'Hours')).toContain(
      'The price is capped: you pay for 30.0 h at the most.',
    )
  })

  it('say who else pays', () => {
    const car = worked().estimate(onGate('Sill, left', 'opened'), 1, { payer: 'insurer' })
    expect(linesOf(reportOn(car), 'Hours')).toContain('These figures take in what the insurer pays for.')
  })

  it('that were written down late still count in the week they were worked', () => {
    const car = inWork().at('2026-12-01T08:00')
    work(car, 'late', '2026-11-27', 4)
    expect(reportOn(car, { now: Date.parse('2026-12-01T12:00:00Z') }).opening[0]).toBe(
      'This week we worked 4.0 h.',
    )
  })
})

describe('what comes next and when', () => {
  it('lists what may be done and what it waits for', () => {
    const car = inWork().at('2026-11-20T09:00').passTo('Sill, left', 'assessed')
    expect(linesOf(reportOn(car), NEXT)).toEqual([
      'We can go on with this:',
      'Sill, left: new metal to be made and let in.',
      'Boot floor: to be opened up.',
    ])
  })

  it('says when the promised date was moved this week', () => {
    const car = inWork()
      .at('2026-11-25T09:00')
      .add('visitChanged', {
        visitId: visitId('first'),
        promised: '2027-01-15',
        priority: 1,
        charge: { by: 'hour' },
      })
    expect(linesOf(reportOn(car), READY)).toEqual([
      'The promised date was moved this week, from Fri 18 Dec to Fri 15 Jan 2027.',
    ])
  })

  it('says nothing of a date that nobody promised', () => {
    const car = buildCar().add('visitChanged', {
      visitId: visitId('first'),
      promised: null,
      priority: 1,
      charge: { by: 'hour' },
    })
    expect(sectionOf(reportOn(car), READY)).toBeUndefined()
  })
})

describe('photos', () => {
  const asks = { gates: { opened: { asks: { ...noAsks, photosBefore: 1, photos: 1 } } } }
  const shot = (
    car: CarBuilder,
    id: string,
    gate: 'opened' | 'fabricated',
    shows: 'before' | 'after' | 'work',
  ) => car.photo(id, [{ what: 'gate', repairId: repairId('Wing'), gate, shows, layerId: null }])

  const photographed = (): CarBuilder => {
    const car = buildCar().repair('Wing', asks).agree('Wing').at('2026-11-12T09:00')
    shot(car, 'bad', 'opened', 'before')
    car.at('2026-11-24T09:00')
    shot(car, 'face', 'fabricated', 'work')
    return car
  }

  it('stand as before and after of the same repair, with their captions and days', () => {
    const [block] = sectionOf(reportOn(photographed()), DID)!.blocks
    expect(block).toMatchObject({
      title: 'Wing',
      plates: [
        {
          kind: 'pair',
          before: { caption: 'Bad', taken: 'Thu 12 Nov' },
          after: { caption: 'Face', taken: 'Tue 24 Nov' },
        },
      ],
    })
  })

  it('without a caption say what they show', () => {
    const car = photographed().add('captionSet', {
      attachmentId: attachmentIdSchema.parse('photo-face'),
      caption: ' ',
    })
    expect(reportPhotos(reportOn(car)).map(({ caption }) => caption)).toEqual(['Bad', 'Wing, fabricated'])
  })

  it('are only the chosen ones when the manager chose', () => {
    const photos = [attachmentIdSchema.parse('photo-bad')]
    const report = reportOn(photographed(), { photos })
    expect(reportPhotos(report).map(({ attachmentId }) => attachmentId)).toEqual(photos)
    expect(sectionOf(report, 'More photos')).toBeDefined()
  })

  it('are never shown twice and never more than twelve', () => {
    const car = buildCar()
    for (let count = 0; count < 20; count += 1) {
      const name = `Repair ${count}`
      car.at('2026-11-12T09:00').repair(name)
      for (const [moment, gate, shows] of [
        ['2026-11-12T10:00', 'opened', 'before'],
        ['2026-11-24T10:00', 'fabricated', 'work'],
      ] as const) {
        car.at(moment).add('photoAttached', {
          attachmentId: attachmentIdSchema.parse(`photo-${gate}-${count}`),
          sha256: `${count}${shows === 'work' ? 'a' : 'b'}`.padStart(64, '0'),
          taken: null,
          caption: '',
          serves: [{ what: 'gate', repairId: repairId(name), gate, shows, layerId: null }],
        })
      }
    }
    const photos = reportPhotos(reportOn(car))
    expect(photos).toHaveLength(12)
    expect(new Set(photos.map(({ sha256 }) => sha256)).size).toBe(12)
  })
})

describe('what the report is not', () => {
  it('is said on every report, with the local inspection where metal is load-bearing', () => {
    expect(reportOn(inWork()).cautions.join(' ')).toMatch(
      /certifies nothing\. .*load-bearing.*licensed inspector/,
    )
    expect(reportOn(buildCar().repair('Wing')).cautions).toEqual([
      'This report informs: it says what we found and did. It certifies nothing.',
    ])
  })
})

describe('a report that was issued', () => {
  const issued = (week: string): CarBuilder =>
    inWork()
      .at('2026-11-27T12:00')
      .add('reportIssued', {
        reportId: reportIdSchema.parse(`report-${week.toLowerCase()}`),
        visitId: visitId('first'),
        week,
        sha256: 'a'.repeat(64),
        head: 'b'.repeat(64),
        words: '',
        photos: [],
        title: week,
      })

  it('is counted: the next one has the next number', () => {
    expect(reportOn(inWork())).toMatchObject({ number: 1, written: 'Fri 27 Nov 2026' })
    expect(reportOn(issued('2026-W47'))).toMatchObject({ number: 2 })
    expect(reportOn(issued('2026-W47')).opening[0]).not.toContain('corrects')
  })

  it('is corrected by a new one that says so', () => {
    const report = reportOn(issued('2026-W48'))
    expect(report.number).toBe(2)
    expect(report.opening[0]).toBe('This report corrects report 1 on the same week and takes its place.')
  })

  it('changes nothing else of what is told', () => {
    expect(reportOn(issued('2026-W47'))).toEqual({ ...reportOn(inWork()), number: 2 })
  })
})
