import { describe, expect, it } from 'vitest'
import { ASKS_NOTHING } from '../../../domain/catalogue/type-plan.ts'
import { reportPhotos } from '../../../domain/report/owner-week-shapes.ts'
import { attachmentIdSchema, reportIdSchema } from '../../../domain/ids.ts'
import { buildCar, type CarBuilder, onGate, repairId, visitId } from '../../support/car-builder.ts'
import { choicesOf, linesOf, reportOn, sectionOf } from '../../support/owner-report.ts'
import { DID, NEXT, READY, inWork, work } from '../../support/report-cases.ts'

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
      'The price is capped: 30.0 h are charged at the most.',
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
  const asks = { gates: { opened: { asks: { ...ASKS_NOTHING, photosBefore: 1, photos: 1 } } } }
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
    const report = reportOn(photographed(), { choices: choicesOf({ photos }) })
    expect(reportPhotos(report).map(({ attachmentId }) => attachmentId)).toEqual(photos)
    expect(sectionOf(report, 'More photos')).toBeDefined()
  })

  it('carry the cut that the manager chose, and no other', () => {
    const crop = { left: 0.1, top: 0.2, width: 0.5, height: 0.4 }
    const crops = [{ attachmentId: attachmentIdSchema.parse('photo-face'), crop }]
    const report = reportOn(photographed(), { choices: choicesOf({ crops }) })
    expect(reportPhotos(report).map((photo) => photo.crop)).toEqual([null, crop])
  })

  it('carry the marks that are seen in the cut, at their place in it', () => {
    const crop = { left: 0.5, top: 0, width: 0.5, height: 1 }
    const attachmentId = attachmentIdSchema.parse('photo-face')
    const seen = { kind: 'circle', from: { x: 0.5, y: 0.25 }, to: { x: 0.75, y: 0.5 } } as const
    const cutOff = { kind: 'arrow', from: { x: 0.1, y: 0.1 }, to: { x: 0.3, y: 0.3 } } as const
    const car = photographed().add('photoMarked', { attachmentId, marks: [cutOff, seen] })
    const marksOf = (crops: { attachmentId: typeof attachmentId; crop: typeof crop }[]) =>
      reportPhotos(reportOn(car, { choices: choicesOf({ crops }) })).map(({ marks }) => marks)
    expect(marksOf([])).toEqual([[], [cutOff, seen]])
    // By hand: x' = (x - 0.5) / 0.5.
    expect(marksOf([{ attachmentId, crop }])).toEqual([
      [],
      [{ kind: 'circle', from: { x: 0, y: 0.25 }, to: { x: 0.5, y: 0.5 } }],
    ])
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
        page: null,
        photos: [],
        crops: [],
        names: false,
        dates: 'range',
        language: 'en',
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
