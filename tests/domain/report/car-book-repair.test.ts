import { describe, expect, it } from 'vitest'
import { bookPhotos } from '../../../domain/report/car-book-shapes.ts'
import { findingIdSchema, holdIdSchema, readingIdSchema } from '../../../domain/ids.ts'
import { buildCar, type CarBuilder, personId, repairId } from '../../support/car-builder.ts'
import { bookOn, chapterLines } from '../../support/car-book.ts'
import { layerId } from '../../support/plans.ts'
import { createScene } from '../../support/scene.ts'

const gatePhoto = (
  car: CarBuilder,
  id: string,
  gate: 'opened' | 'assessed' | 'primed',
  shows: 'before' | 'layer' | 'work' | 'as left',
  layer: string | null = null,
) =>
  car.photo(id, [
    {
      what: 'gate',
      repairId: repairId('Boot floor'),
      gate,
      shows,
      layerId: layer === null ? null : layerId('Boot floor', layer),
    },
  ])

describe('a repair in the book', () => {
  it('tells its gates in order: who signed and did them, when they were done and when that was written down', () => {
    const facts = buildCar()
      .repair('Boot floor')
      .at('2026-11-24T10:40')
      .by('Wren')
      .pass('Boot floor', 'opened')
      .facts()
    const late = facts.map((each) =>
      each.kind === 'gatePassed' ? { ...each, recorded: '2026-11-25T08:10:00.000Z' } : each,
    )
    const book = bookOn(late)
    expect(chapterLines(book, 'Boot floor', 'Gates')).toEqual([
      'opened | Tue 24 Nov 2026, 10:40 | Wren | Wren | Wed 25 Nov 2026, 08:10',
      'Assessed, fabricated, sealed, primed, trial-fitted, welded and painted are not done yet.',
    ])
    expect(chapterLines(book, 'Boot floor', 'Opened')).toEqual([
      'Tue 24 Nov 2026, 10:40 | Passed. Signed by Wren; work done by Wren. Recorded on Wed 25 Nov 2026, 08:10.',
    ])
  })

  it('tells a reopening with its cause, at later gates only where they had been done, and the gate passed again', () => {
    const car = buildCar().repair('Boot floor').at('2026-11-24T09:00').passTo('Boot floor', 'sealed')
    const book = bookOn(car.reopen('Boot floor', 'fabricated').pass('Boot floor', 'fabricated').facts())
    const passed = 'Passed. Signed by Mara; work done by Mara.'
    expect(chapterLines(book, 'Boot floor', 'Fabricated')).toEqual([
      `Tue 24 Nov 2026, 09:02 | ${passed} Recorded at 09:02.`,
      'Tue 24 Nov 2026, 09:04 | Reopened by Mara, cause ‘fit’: the edge stands proud. Recorded at 09:04.',
      `Tue 24 Nov 2026, 09:05 | ${passed} Recorded at 09:05.`,
    ])
    expect(chapterLines(book, 'Boot floor', 'Sealed')[1]).toBe(
      'Tue 24 Nov 2026, 09:04 | Taken back when fabricated was reopened. Recorded at 09:04.',
    )
    expect(chapterLines(book, 'Boot floor', 'Primed')).toEqual([])
  })

  it('tells layers as they were found, what was decided and done, and later gradings beside the first', () => {
    const scene = createScene()
    scene.repair('Sill')
    scene.passTo('Sill', 'opened')
    scene.grade('Sill', { grade: 'holed', decision: 'patch', remainingMm: 0.6 })
    scene.driver.must('gradeLayer', {
      repairId: repairId('Sill'),
      layerId: layerId('Sill', 'closing'),
      grade: 'gone',
      judgedBy: '',
      remainingMm: null,
      decision: 'replace',
    })
    const lines = chapterLines(bookOn(scene.driver.facts), 'Sill', 'Layers')
    expect(lines.slice(0, 2)).toEqual([
      'Inner panel, 1.6 mm | holed, 0.6 mm left | patch | nothing yet',
      'Closing plate, 1.2 mm | holed, 0.6 mm left | patch | nothing yet',
    ])
    expect(lines[2]).toMatch(
      /^Wed 4 Mar 2026, \d\d:\d\d \| Closing plate graded again by Mara: gone; replace\.$/,
    )
  })

  it('tells readings with the dew point, welds against the plan, and releases with their reason', () => {
    const car = buildCar()
      .repair('Boot floor', {
        welds: [{ jointId: 'joint-floor' as never, name: 'floor edge', kind: 'plug', planned: 24 }],
      })
      .at('2026-11-24T09:00')
      .add('conditionsRead', {
        readingId: readingIdSchema.parse('reading-air'),
        repairIds: [repairId('Boot floor')],
        gate: 'primed',
        airC: 20,
        humidityPercent: 50,
        steelC: 18,
      })
      .add('weldsCounted', {
        readingId: readingIdSchema.parse('reading-welds'),
        repairId: repairId('Boot floor'),
        welds: [{ jointId: 'joint-floor' as never, done: 1 }],
      })
      .add('holdReleased', {
        repairId: repairId('Boot floor'),
        gate: 'welded',
        code: 'curing',
        subject: 'x',
        reason: 'the sealer is dry to the touch.',
        ownHold: true,
      })
      .pass('Boot floor', 'opened')
    const book = bookOn(car.facts())
    // 9.3 °C at 20 °C and 50 %: table A.1 of ISO 8502-4, from memory.
    expect(chapterLines(book, 'Boot floor', 'Primed')).toEqual([
      'Tue 24 Nov 2026, 09:00 | Air 20.0 °C, relative humidity 50 %, steel 18.0 °C; dew point 9.3 °C, steel 8.7 °C above it. Stated by Mara.',
    ])
    expect(chapterLines(book, 'Boot floor', 'Welded')).toEqual([
      'Tue 24 Nov 2026, 09:02 | The hold ‘curing’ was released by Mara, who was held by it: the sealer is dry to the touch. Recorded at 09:02.',
      'Tue 24 Nov 2026, 09:01 | Welds counted. Floor edge: 1 plug of 24 planned. Stated by Mara.',
    ])
  })

  it('tells holds set by hand where they were set, and who cleared them', () => {
    const car = buildCar()
      .repair('Boot floor')
      .at('2026-11-24T09:00')
      .add('holdSet', {
        holdId: holdIdSchema.parse('hold-inspector'),
        scope: { kind: 'repair', repairId: repairId('Boot floor') },
        words: 'The inspector looks at it.',
        clears: 'the inspector',
        expected: '2026-12-01',
      })
      .add('holdCleared', { holdId: holdIdSchema.parse('hold-inspector'), note: '' })
      .pass('Boot floor', 'opened')
    expect(chapterLines(bookOn(car.facts()), 'Boot floor', 'Holds on the whole repair')).toEqual([
      'Tue 24 Nov 2026, 09:00 | Hold set by Mara: The inspector looks at it; the inspector clears it, expected Tue 1 Dec 2026. Cleared by Mara on Tue 24 Nov 2026, 09:01 (recorded 09:01).',
    ])
  })

  it('closed as found says that the damage is there, shows it, and warns where the metal bears load', () => {
    const car = gatePhoto(
      buildCar().repair('Boot floor', { loadBearing: true }),
      'left-as-it-was',
      'assessed',
      'as left',
    )
    const [photo] = car.car().attachments.keys()
    const book = bookOn(
      car
        .add('closedAsFound', {
          repairId: repairId('Boot floor'),
          variationId: null,
          attachments: [photo!],
          protection: 'cavity wax',
          answer: 'next winter',
          cautionShown: true,
        })
        .facts(),
    )
    expect(chapterLines(book, 'Boot floor', 'Closed as found')).toEqual([
      'Closed as found on Mon 2 Nov 2026, 08:04 (recorded 08:04), signed by Mara: the damage is still there.',
      'What protection could be given: cavity wax.',
      "The payer's answer: next winter.",
      'Photo 1 shows it as it was left.',
      'This is load-bearing metal that was left as found. Have it inspected by a licensed inspector before the car is driven, and follow the local code.',
    ])
    expect(book.cautions.at(-1)).toBe(
      'One repair was closed as found, with the damage still there: Boot floor.',
    )
    expect(book.cautions.join(' ')).toContain('licensed inspector')
  })

  it('that nobody has begun shares a chapter with the others like it', () => {
    const book = bookOn(buildCar().repair('Boot floor').repair('Sill').pass('Sill', 'opened').facts())
    expect(book.chapters.map(({ title }) => title)).toEqual([
      'The car',
      'How it closes',
      'Sill',
      'Repairs not begun',
      'Words in this book',
      'The whole record',
    ])
    expect(chapterLines(book, 'Repairs not begun')).toEqual([
      '1 repair',
      'Boot floor',
      'Right rear, on the shell, covered. Put on the list on Mon 2 Nov 2026 by Mara; paid by the owner. It is not begun.',
      'Layers, from the inside out: inner panel, 1.6 mm; and closing plate, 1.2 mm.',
    ])
  })
})

describe('the photos of the book', () => {
  it('are all there once, numbered in reading order, and named by their numbers', () => {
    const car = buildCar().repair('Sill').repair('Boot floor')
    gatePhoto(car, 'primed-inside', 'primed', 'work')
    car.photo('from-the-left', [{ what: 'car' }])
    gatePhoto(car, 'before-cutting', 'opened', 'before')
    car.photo('of-both', [
      { what: 'gate', repairId: repairId('Sill'), gate: 'opened', shows: 'work', layerId: null },
      { what: 'gate', repairId: repairId('Boot floor'), gate: 'opened', shows: 'work', layerId: null },
    ])
    const ids = [...car.car().attachments.keys()]
    car.add('findingAdded', {
      findingId: findingIdSchema.parse('finding-crack'),
      repairId: repairId('Boot floor'),
      layerId: layerId('Boot floor', 'inner'),
      kind: 'crack',
      grade: 'pitted',
      extent: '40 mm along the flange.',
      needs: 'weld and dress',
      attachments: [ids[0]!, ids[2]!],
    })
    const book = bookOn(car.facts())
    expect(bookPhotos(book).map(({ number, caption }) => `${number} ${caption}`)).toEqual([
      '1 From-the-left. Added by Mara.',
      '2 Of-both. Added by Mara.',
      '3 Before-cutting. Added by Mara.',
      '4 Primed-inside. Added by Mara.',
    ])
    expect(book.picture?.number).toBe(1)
    expect(chapterLines(book, 'The whole record')).toContain(
      '5 | Mon 2 Nov 2026, 08:04 | Mara | Photo 4 of Boot floor: primed, work: primed-inside.',
    )
    expect(chapterLines(book, 'Boot floor', 'Opened').slice(0, 2)).toEqual([
      'Not passed.',
      'Photo 2 shows this too.',
    ])
    expect(chapterLines(book, 'Boot floor', 'Findings')[0]).toContain(
      'Crack on the inner panel, pitted: 40 mm along the flange. It needs: weld and dress. Found by Mara. Photos 3 and 4.',
    )
  })

  it('say what they show where nobody wrote a caption, and the layer where the caption does not', () => {
    const scene = createScene()
    scene.repair('Sill')
    scene.photo('Sill', 'opened', { shows: 'before' })
    const car = buildCar().repair('Boot floor')
    gatePhoto(car, 'found', 'assessed', 'layer', 'inner')
    expect(bookPhotos(bookOn(scene.driver.facts)).map(({ caption }) => caption)).toEqual([
      'Sill, before it was opened. Added by Mara.',
    ])
    expect(bookPhotos(bookOn(car.facts())).map(({ caption }) => caption)).toEqual([
      'Found (inner panel). Added by Mara.',
    ])
  })

  it('leave the book when they are voided, and are named among what was voided', () => {
    const car = buildCar().repair('Boot floor')
    gatePhoto(car, 'wrong-car', 'opened', 'work')
    const number = car.facts().length
    const book = bookOn(car.add('factVoided', { number, reason: 'it shows another car' }).facts())
    expect(bookPhotos(book)).toEqual([])
    expect(chapterLines(book, 'What was voided').at(-1)).toBe(
      `Line ${number} | It said: Photo of Boot floor: opened, work: wrong-car. Stated by Mara on Mon 2 Nov 2026, 08:03. Voided by Mara on Mon 2 Nov 2026, 08:04 (recorded 08:04): it shows another car.`,
    )
  })
})

it('people of the workshop are named, as their signatures are part of the file', () => {
  const scene = createScene()
  scene.repair('Sill')
  scene.pass('Sill', 'opened', { by: personId('Joss'), did: [personId('Joss'), personId('Wren')] })
  expect(chapterLines(bookOn(scene.driver.facts), 'Sill', 'Opened')[0]).toContain(
    'Signed by Joss; work done by Joss and Wren.',
  )
})
