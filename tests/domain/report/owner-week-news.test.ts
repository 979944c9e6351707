import { describe, expect, it } from 'vitest'
import { ERASED_CONTACT } from '../../../domain/commands/erased-contact.ts'
import { awayIdSchema, findingIdSchema, partyIdSchema } from '../../../domain/ids.ts'
import { ownerWeek } from '../../../domain/report/owner-week.ts'
import { type CarBuilder, onGate, onTask, repairId, variationId, visitId } from '../../support/car-builder.ts'
import { choicesOf, linesOf, reportOn, sectionOf } from '../../support/owner-report.ts'
import { layerId } from '../../support/plans.ts'
import { buildWorkshop, nameOf } from '../../support/workshop-builder.ts'
import {
  FOUND,
  DID,
  TROUBLE,
  STANDS,
  READY,
  KNOW,
  inWork,
  graded,
  found,
  work,
} from '../../support/report-cases.ts'
import { sure } from '../../support/varied.ts'

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

  it('says in its own language that a name was erased', () => {
    const gone = { nameOf: () => ERASED_CONTACT.name }
    expect(reportOn(inWork(), gone).greeting).toBe('Dear (name erased),')
    const german = reportOn(inWork(), { ...gone, choices: choicesOf({ language: 'de' }) })
    expect(german).toMatchObject({ owner: '(Name gelöscht)', greeting: 'Guten Tag, (Name gelöscht)!' })
  })

  it('speaks of the Sunday of a week that is over', () => {
    expect(reportOn(inWork(), { now: Date.parse('2026-12-09T10:00:00Z') }).asOf).toBe('2026-11-29')
  })

  it('keeps the words of the manager, paragraph by paragraph', () => {
    const words = 'The sun shone.\r\n\r\n  We  oiled the doors. \n'
    expect(reportOn(inWork(), { choices: choicesOf({ words }) }).words).toEqual([
      'The sun shone.',
      'We oiled the doors.',
    ])
  })

  it('is none before the visit was known', () => {
    const input = { facts: inWork().facts(), visitId: visitId('first'), workshop: buildWorkshop(), nameOf }
    const more = { now: Date.parse('2026-11-27T15:00:00Z'), choices: choicesOf(), expected: null }
    expect(ownerWeek({ ...input, ...more, week: { year: 2026, week: 44 } })).toBeNull()
  })
})

describe('a quiet week', () => {
  it('says that nothing was done and that nothing on the car holds it up', () => {
    const report = reportOn(inWork())
    expect(report.opening).toEqual([
      'This week we did no work on your car: the work waits its turn, and nothing on the car itself holds it up.',
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
      'This week we did no work on your car: the inspector comes first; expected Wed 2 Dec.',
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
      'This week we did no work on your car: it has been paused since Wed 25 Nov. You asked us to wait.',
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
    expect(reportOn(car).opening).toEqual(['This week we finished two steps on one repair and worked 6.5 h.'])
    found(car, 'first')
    expect(reportOn(car).opening[0]).toContain('found one thing worth your attention')
    found(car, 'second')
    expect(reportOn(car).opening[0]).toContain('found two things worth your attention')
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
      'On Mon 23 Nov we opened it up. On Tue 24 Nov we judged it layer by layer.',
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
      /On Thu 26 Nov we .* welded the closing panel on\. It is closed now\.$/,
    )
    car.passTo('Boot floor', 'painted')
    expect(linesOf(reportOn(car), DID)[1]).toMatch(
      /On Thu 26 Nov we .* gave it its protective coat\. It is finished\.$/,
    )
  })

  it('says when a gate was not needed, and why', () => {
    const car = busy().notNeeded('Boot floor', 'sealed')
    expect(linesOf(reportOn(car), DID)).toContain(
      'Sealing the seams is not needed here: nothing to do there.',
    )
  })

  it('says that work goes on where no gate was passed', () => {
    const car = inWork().at('2026-11-10T09:00').passTo('Boot floor', 'assessed')
    work(car, 'first', '2026-11-24', 3)
    expect(linesOf(reportOn(car), DID)).toEqual([
      'Boot floor',
      'We worked on it; the new metal is not all in yet.',
    ])
  })

  it('tells tasks on the whole car', () => {
    const car = inWork()
      .task('Strip the shell')
      .estimate(onTask('Strip the shell'), 4)
      .at('2026-11-24T09:00')
      .add('taskSigned', { taskId: 'task-strip-the-shell' as never, did: [], note: '' })
    expect(linesOf(reportOn(car), DID)).toEqual(['Work on the whole car: strip the shell (Tue 24 Nov).'])
    expect(reportOn(car).opening[0]).toBe('This week we did one task on the whole car.')
  })

  it('tells nothing that happened before or after the week', () => {
    const car = busy().at('2026-11-30T00:00').passTo('Boot floor', 'fabricated')
    const report = reportOn(car, { now: Date.parse('2026-12-03T12:00:00Z') })
    expect(linesOf(report, DID)[1]).not.toContain('new metal')
    expect(linesOf(report, STANDS)).toContain('Two of eight steps are done. Next: the new metal.')
    const next = reportOn(car, {
      week: { year: 2026, week: 49 },
      now: Date.parse('2026-12-03T12:00:00Z'),
    })
    expect(linesOf(next, DID)[1]).toBe('On Mon 30 Nov we made and let in the new metal.')
    expect(sectionOf(next, FOUND)).toBeUndefined()
  })

  it('names no technician', () => {
    expect(JSON.stringify(reportOn(busy()))).not.toMatch(/Joss|Mara/)
  })
})

describe('bad news', () => {
  const rusted = (): CarBuilder => {
    const car = inWork().at('2026-11-10T09:00').passTo('Boot floor', 'assessed').at('2026-11-25T11:00')
    found(car, 'flange')
    return car
  }
  const asked = (car: CarBuilder, title: string): CarBuilder =>
    car.add('variationRaised', {
      variationId: variationId(title),
      visitId: visitId('first'),
      payer: 'owner',
      title,
      why: 'the flange is rusted through',
      ifNot: 'The floor stays weak.',
      findings: [findingIdSchema.parse('finding-flange')],
      attachments: [],
      lines: [sure(onGate('Boot floor', 'fabricated'), 6.5)],
      costs: [],
    })

  it('says what was found, how bad it is, what it needs and that it goes beyond the agreement', () => {
    expect(linesOf(reportOn(asked(rusted(), 'New flange')), FOUND)).toEqual([
      'Boot floor',
      'On Wed 25 Nov we found rust on the inner panel: 120 mm along the flange. The metal there is holed: rusted through in places. What it needs: a new flange, 150 mm long. This goes beyond what is agreed; it waits for your answer.',
    ])
  })

  it('says what stands of the extra work on a finding once a first question was declined', () => {
    const again = (): CarBuilder =>
      asked(asked(rusted(), 'New flange').decide('New flange', 'declined'), 'Short flange')
    expect(linesOf(reportOn(again()), FOUND)[1]).toMatch(/This goes beyond what is agreed; it waits/)
    const agreed = again().decide('Short flange', 'accepted')
    expect(linesOf(reportOn(agreed), FOUND)[1]).toMatch(/The extra work is agreed\.$/)
  })

  it('says that extra work is agreed though another question on it stands open', () => {
    const both = asked(asked(rusted(), 'New flange'), 'Short flange').decide('Short flange', 'accepted')
    expect(linesOf(reportOn(both), FOUND)[1]).toMatch(/The extra work is agreed\.$/)
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
      'Boot floor: on Tue 24 Nov the manager set aside a check (temperature and humidity) before the priming. The reason: the hygrometer broke.',
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
      'The promised date is Wed 25 Nov, as before. That day has passed and the car is not finished.',
    ])
  })
})
