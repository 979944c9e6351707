import { describe, expect, it } from 'vitest'
import { ASKS_NOTHING } from '../../../domain/catalogue/type-plan.ts'
import { carView } from '../../../domain/views/car-view.ts'
import { buildCar, type CarBuilder, repairId } from '../../support/car-builder.ts'
import { layerId } from '../../support/plans.ts'
import { buildWorkshop, nameOf } from '../../support/workshop-builder.ts'

const workshop = buildWorkshop()
const now = Date.parse('2026-11-25T10:40:00Z')

const viewOf = (builder: CarBuilder) => carView({ car: builder.car(), now, workshop, nameOf })
const cardOf = (builder: CarBuilder, name: string) =>
  viewOf(builder).repairs.find((repair) => repair.name === name)!
const marksOf = (builder: CarBuilder, name: string) => cardOf(builder, name).marks.map(({ mark }) => mark)

/** A valance over a leg tail over a spring hanger. */
const stack = () =>
  buildCar()
    .repair('Valance')
    .repair('Leg tail')
    .repair('Spring hanger')
    .cover('Valance', 'Leg tail')
    .cover('Leg tail', 'Spring hanger')
    .agree('Valance')
    .agree('Leg tail')
    .agree('Spring hanger')

describe('the closing map', () => {
  it('orders the repairs by how deep they lie', () => {
    const car = buildCar()
      .repair('Spring hanger')
      .repair('Leg tail')
      .repair('Valance')
      .cover('Valance', 'Leg tail')
      .cover('Leg tail', 'Spring hanger')
    expect(viewOf(car).repairs.map(({ name, depth }) => [name, depth])).toEqual([
      ['Valance', 0],
      ['Leg tail', 1],
      ['Spring hanger', 2],
    ])
  })

  it('bars the line to what is not finished behind the panel', () => {
    const [upper, lower] = viewOf(stack()).covers
    expect(upper).toMatchObject({
      barred: true,
      words: 'Valance may not be welded yet: leg tail behind it is not finished.',
    })
    expect(lower).toMatchObject({
      barred: true,
      words: 'Leg tail may not be welded yet: spring hanger behind it is not finished.',
    })
  })

  it('frees the line once what lies behind is finished', () => {
    const car = stack()
      .pass('Valance', 'opened')
      .pass('Leg tail', 'opened')
      .passTo('Spring hanger', 'painted')
    const [upper, lower] = viewOf(car).covers
    expect([upper!.barred, lower!.barred]).toEqual([true, false])
    expect(lower!.words).toBe('nothing of spring hanger holds leg tail open')
  })

  it('bars the line while what lies behind still cures', () => {
    const car = buildCar()
      .repair('Valance')
      .repair('Leg tail', { gates: { painted: { cureHours: 24 } } })
      .cover('Valance', 'Leg tail')
      .pass('Valance', 'opened')
      .at('2026-11-25T08:00')
      .passTo('Leg tail', 'painted')
    expect(viewOf(car).covers[0]).toMatchObject({
      barred: true,
      words: 'Valance may not be welded yet: leg tail: painted cures until Thu 26 Nov 08:07.',
    })
  })

  it('shows a repair added under welded metal as a fault on both ends', () => {
    const car = buildCar()
      .repair('Valance')
      .passTo('Valance', 'painted')
      .repair('Leg tail')
      .cover('Valance', 'Leg tail')
    const words =
      'closed over unfinished work: Valance is closed and Leg tail behind it is not finished; reopen Valance'
    expect(viewOf(car).faults).toEqual([words])
    expect([cardOf(car, 'Valance').faults, cardOf(car, 'Leg tail').faults]).toEqual([[words], [words]])
    expect(viewOf(car).covers[0]).toMatchObject({ barred: true, words })
  })

  it('lists a retired repair last and without a next gate', () => {
    const car = stack().add('repairRetired', { repairId: repairId('Valance'), reason: 'entered twice' })
    const last = viewOf(car).repairs.at(-1)!
    expect(last).toMatchObject({ name: 'Valance', retired: true, next: null, holds: [] })
  })
})

describe('the strip of gates', () => {
  it('marks what is passed, next, later and not needed', () => {
    const car = stack().pass('Valance', 'opened').pass('Valance', 'assessed').notNeeded('Valance', 'sealed')
    expect(marksOf(car, 'Valance')).toEqual([
      'passed',
      'passed',
      'next',
      'not needed',
      'later',
      'later',
      'later',
      'later',
    ])
    expect(cardOf(car, 'Valance').marks[0]).toMatchObject({ by: 'Mara' })
  })

  it('marks the next gate as held, with who can clear it', () => {
    const car = stack()
    expect(marksOf(car, 'Leg tail')[0]).toBe('held')
    expect(cardOf(car, 'Leg tail').holds).toMatchObject([
      {
        code: 'uncover first',
        words: 'Valance covers it and is not open yet.',
        clearedBy: 'the technician',
        otherRepair: repairId('Valance'),
        broughtByWork: false,
      },
    ])
  })

  it('keeps a gate as next that only waits for its photos', () => {
    const car = buildCar()
      .repair('Valance', { gates: { opened: { asks: { ...ASKS_NOTHING, photos: 1 } } } })
      .agree('Valance')
    expect(marksOf(car, 'Valance')[0]).toBe('next')
    expect(cardOf(car, 'Valance').holds).toMatchObject([
      { code: 'evidence', words: 'A photo: 0 of 1', broughtByWork: true },
    ])
  })

  it("holds fabricated for the manager's review, which the technician cannot bring", () => {
    const car = buildCar()
      .repair('Valance', { gates: { fabricated: { asks: { ...ASKS_NOTHING, review: true } } } })
      .agree('Valance')
      .passTo('Valance', 'assessed')
    expect(marksOf(car, 'Valance')[2]).toBe('held')
  })

  it('marks the gates left open at closed as found', () => {
    const car = stack()
      .pass('Valance', 'opened')
      .add('closedAsFound', {
        repairId: repairId('Valance'),
        variationId: null,
        attachments: [],
        protection: 'wax',
        answer: 'leave it',
        cautionShown: false,
      })
    expect(marksOf(car, 'Valance')).toEqual(['passed', ...Array.from({ length: 7 }, () => 'as found')])
    expect(cardOf(car, 'Valance')).toMatchObject({ closedAsFound: true, finished: true, next: null })
  })

  it("follows the repair's own order where primed comes first", () => {
    const car = buildCar().repair('Valance', { primedFirst: true })
    expect(
      cardOf(car, 'Valance')
        .marks.slice(3, 5)
        .map(({ gate }) => gate),
    ).toEqual(['primed', 'sealed'])
  })
})

describe('the section', () => {
  const layer = (name: string) => layerId('Valance', name)
  const graded = () =>
    buildCar()
      .repair('Valance')
      .pass('Valance', 'opened')
      .add('layerGraded', {
        repairId: repairId('Valance'),
        layerId: layer('inner'),
        grade: 'holed',
        judgedBy: '',
        remainingMm: 0.6,
        decision: 'patch',
      })
  const layersOf = (builder: CarBuilder) => viewOf(builder).sections[repairId('Valance')]!.layers

  it('shows each layer from the innermost, as it was found', () => {
    expect(layersOf(graded())).toMatchObject([
      {
        name: 'inner panel',
        closing: false,
        grade: 'holed',
        decision: 'patch',
        remainingMm: 0.6,
        state: 'found',
      },
      { name: 'closing plate', closing: true, grade: null, state: 'not seen yet', photographed: false },
    ])
  })

  it('follows a layer to where it is closed over', () => {
    const mark = (car: CarBuilder, what: 'repaired' | 'coated' | 'closed over') =>
      car.add('layersMarked', { repairId: repairId('Valance'), layerIds: [layer('inner')], mark: what })
    const car = graded()
    const states = (['repaired', 'coated', 'closed over'] as const).map((what) => {
      mark(car, what)
      return layersOf(car)[0]!.state
    })
    expect(states).toEqual(['repaired', 'coated', 'closed over'])
  })

  it('knows which layers are photographed and what of the cavity is done', () => {
    const car = graded()
      .photo('inner', [
        {
          what: 'gate',
          repairId: repairId('Valance'),
          gate: 'assessed',
          shows: 'layer',
          layerId: layer('inner'),
        },
      ])
      .passTo('Valance', 'sealed')
    expect(viewOf(car).sections[repairId('Valance')]).toMatchObject({
      open: true,
      sealed: true,
      primed: false,
      painted: false,
      layers: [{ photographed: true }, { photographed: false }],
    })
  })
})
