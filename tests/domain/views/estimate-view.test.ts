import { describe, expect, it } from 'vitest'
import type { FinishedRepair } from '../../../domain/estimate/finished-repair.ts'
import type { Grade } from '../../../domain/facts/shapes.ts'
import { kindWords } from '../../../domain/views/estimate-words.ts'
import { estimateView } from '../../../domain/views/estimate-view.ts'
import { buildCar, type CarBuilder, onGate, onTask, repairId, visitId } from '../../support/car-builder.ts'
import { finishedLike, typeId } from '../../support/finished-repairs.ts'
import { layerId, repairPlan, type RepairPlanOver } from '../../support/plans.ts'
import { buildWorkshop, nameOf } from '../../support/workshop-builder.ts'
import { createEstimateHistory } from '../../support/estimate-history.ts'

const workshop = buildWorkshop((add) =>
  add('typeSaved', { typeId: typeId('hanger'), version: 1, plan: repairPlan('Spring hanger') }),
)
const now = Date.parse('2026-11-25T10:40:00Z')
const estimateOf = (builder: CarBuilder, finished: readonly FinishedRepair[] = []) =>
  estimateView({
    car: builder.car(),
    finished,
    history: createEstimateHistory(finished),
    now,
    workshop,
    nameOf,
  })
const only = (builder: CarBuilder, finished: readonly FinishedRepair[] = []) =>
  estimateOf(builder, finished).repairs[0]!

/** A spring hanger, two hours agreed for each of its eight gates. */
function hanger(outside: Grade | null, over: RepairPlanOver = {}): CarBuilder {
  const car = buildCar().add('repairAdded', {
    repairId: repairId('Hanger, left'),
    type: { typeId: typeId('hanger'), version: 1 },
    plan: repairPlan('Hanger, left', over),
    payer: 'owner',
  })
  if (outside !== null)
    car.add('outsideGraded', { repairId: repairId('Hanger, left'), grade: outside, note: 'from the pit' })
  return car.agree('Hanger, left')
}

const fourteen = [...finishedLike(9, 'pitted', 'holed'), ...finishedLike(5, 'pitted', 'pitted')]

describe('a repair before it is opened', () => {
  it('says how likely each grade of its hidden layer is, with the counts', () => {
    const { layers, state, outside, type, zone } = only(hanger('pitted'), fourteen)
    expect({ state, type, zone }).toEqual({
      state: 'before opening',
      type: 'Spring hanger',
      zone: 'right rear',
    })
    expect(outside).toMatchObject({ grade: 'pitted', note: 'from the pit', by: 'Mara' })
    expect(layers).toHaveLength(1)
    expect(layers[0]).toMatchObject({
      name: 'inner panel',
      found: null,
      words: 'Of 14 spring hangers graded pitted from outside, 9 were holed inside.',
    })
    // By hand: (found + 4 x prior) / (14 + 4), the prior of 'pitted' being .03 .10 .37 .40 .10.
    const shares = layers[0]!.likely!.map(({ share }) => share)
    expect(shares[0]).toBeCloseTo(0.12 / 18, 12)
    expect(shares[2]).toBeCloseTo((5 + 1.48) / 18, 12)
    expect(shares[3]).toBeCloseTo((9 + 1.6) / 18, 12)
    expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12)
    expect(layers[0]!.likely![3]).toMatchObject({ grade: 'holed', found: 9, seen: 14 })
  })

  it('says the stated prior where nothing is finished, and names the layer where there are several', () => {
    expect(only(hanger('surface')).layers[0]!.words).toBe(
      'No spring hangers graded surface from outside are finished yet; the usual belief "worse inside than out" counts most.',
    )
    const three = {
      layers: ['tube', 'channel', 'plate'].map((name) => ({
        layerId: layerId('Hanger, left', name),
        name,
        thicknessMm: 1.6,
        loadBearing: true,
      })),
    }
    const history = finishedLike(6, 'pitted', 'holed', { layer: 'channel' })
    const { layers } = only(hanger('pitted', three), history)
    expect(layers.map(({ name }) => name)).toEqual(['tube', 'channel'])
    expect(layers[1]!.words).toBe(
      'Of 6 spring hangers graded pitted from outside, 6 were holed at the channel.',
    )
  })

  it('says one repair in the singular, and repairs without a type as such', () => {
    expect(only(hanger('pitted'), finishedLike(1, 'pitted', 'gone')).layers[0]!.words).toBe(
      'Of 1 spring hanger graded pitted from outside, 1 was gone inside; with so few, the usual belief "worse inside than out" counts most.',
    )
    const untyped = buildCar().repair('Odd one').agree('Odd one')
    expect(only(untyped, fourteen).layers[0]!.words).toMatch(/^No such repairs are finished yet;/)
    expect(
      [
        'Wheel arch',
        'A-post foot',
        'Spring hanger box',
        'Cavity',
        'Stiffening ribs',
        'Floor of the boot',
      ].map((name) => kindWords(name, 2)),
    ).toEqual([
      'wheel arches',
      'A-post feet',
      'spring hanger boxes',
      'cavities',
      'stiffening ribs',
      'repairs ‘floor of the boot’',
    ])
  })

  it('counts all of its type while nobody has graded it from outside, and says so', () => {
    const { layers, outside, rests } = only(hanger(null), fourteen)
    expect(outside).toBeNull()
    expect(layers[0]!.words).toBe('Of 14 spring hangers, 9 were holed inside.')
    expect(rests).toContain('Nobody has graded it from outside yet; with the grade the band is narrower.')
  })

  it('bands its hours around what was agreed, narrower and learned from the type with history', () => {
    const prior = only(hanger('pitted'))
    const learned = only(hanger('pitted'), fourteen)
    expect(prior).toMatchObject({ agreed: 16, baseline: 16, first: null, took: null, problem: null })
    expect(prior.points).toEqual({ shortest: 16, likely: 16, longest: 16 })
    for (const { band } of [prior, learned]) expect(band!.p80).toBeGreaterThan(band!.p50)
    // All fourteen took just what was estimated, so that the next is likely to as well.
    expect(learned.band!.p80 / learned.band!.p50).toBeLessThan(prior.band!.p80 / prior.band!.p50)
    expect(learned.band!.p50).toBeGreaterThan(15)
    expect(learned.band!.p50).toBeLessThan(17)
    expect(learned.rests.join(' ')).toContain('14 finished repairs of this type')
  })

  it('is drawn with what was seen from outside on the outermost layer only', () => {
    const { layers } = only(hanger('holed')).section
    expect(layers.map(({ grade, state }) => [grade, state])).toEqual([
      [null, 'not seen yet'],
      ['holed', 'found'],
    ])
  })

  it('says what to do about a repair that is estimated at nothing', () => {
    const nothing = { shortest: 0, likely: 0, longest: 0 }
    const gates = Object.fromEntries(
      ['opened', 'assessed', 'fabricated', 'sealed', 'primed', 'trial-fitted', 'welded', 'painted'].map(
        (gate) => [gate, { hours: nothing }],
      ),
    )
    const car = buildCar().repair('Bare', { gates })
    expect(only(car)).toMatchObject({
      agreed: 0,
      band: null,
      problem: 'It has no estimate yet. Estimate its gates.',
    })
    expect(estimateOf(car).whole).toMatchObject({ band: null, words: 'Nothing is estimated yet.' })
  })
})

describe('a repair once it is opened', () => {
  const assessed = (grade: Grade) =>
    hanger('surface')
      .pass('Hanger, left', 'opened')
      .add('layerGraded', {
        repairId: repairId('Hanger, left'),
        layerId: layerId('Hanger, left', 'inner'),
        grade,
        judgedBy: '',
        remainingMm: grade === 'pitted' ? 0.7 : null,
        decision: 'patch',
      })
      .pass('Hanger, left', 'assessed')

  it('shows what was found in place of likelihoods, and both the first band and the one of now', () => {
    const before = only(hanger('surface'), fourteen)
    const after = only(assessed('pitted'), fourteen)
    expect(after.state).toBe('assessed')
    expect(after.layers[0]).toMatchObject({
      found: 'pitted',
      likely: null,
      words: 'Found pitted, 0.7 mm left.',
    })
    // The fourteen were finished under journal numbers that come before its opening.
    expect(after.first!.p50).toBeCloseTo(before.band!.p50, 9)
    expect(after.first!.p80).toBeCloseTo(before.band!.p80, 9)
    const width = (band: typeof after.first) => band!.p80 / band!.p50
    expect(width(after.band)).toBeLessThan(width(after.first))
  })

  it('holds to what was said when its payer accepted it, if that was recorded', () => {
    const said = {
      repairId: repairId('Hanger, left'),
      estimated: 16,
      p50: 15,
      p80: 22,
      p90: 27,
      method: 'prior',
      rests: { own: 0, others: 0 },
    } as const
    const state = (when: 'accepted' | 'assessed', car: CarBuilder) =>
      car.add('bandsStated', { visitId: visitId('first'), when, repairs: [said], car: null })
    const stated = state('accepted', hanger('surface')).pass('Hanger, left', 'opened')
    expect(only(stated).first).toEqual({ p50: 15, p80: 22 })
    const late = state('accepted', hanger('surface').pass('Hanger, left', 'opened'))
    expect(only(late).first).not.toEqual({ p50: 15, p80: 22 })
  })

  it('takes more the worse it is found', () => {
    const [pitted, gone] = [only(assessed('pitted'), fourteen), only(assessed('gone'), fourteen)]
    expect(gone.band!.p50).toBeGreaterThan(pitted.band!.p50)
    expect(only(assessed('pitted').pass('Hanger, left', 'fabricated')).state).toBe('in work')
  })

  it('says what it took once it is finished, and nothing is guessed any more', () => {
    const car = assessed('pitted')
      .log('one', 'Joss', { kind: 'day', date: '2026-11-03', hours: 18 }, [
        onGate('Hanger, left', 'fabricated'),
      ])
      .passTo('Hanger, left', 'painted')
    const { state, took, band, rests, problem } = only(car)
    expect({ state, took, band, rests, problem }).toEqual({
      state: 'finished',
      took: 18,
      band: null,
      rests: [],
      problem: null,
    })
    expect(estimateOf(car).movers).toEqual([])
    expect(estimateOf(car).whole.band).toEqual({ p50: 18, p80: 18 })
  })
})

describe('a whole car', () => {
  it('adds what is certain exactly, and says it in one sentence', () => {
    const fixed = (hours: number) => ({ hours: { shortest: hours, likely: hours, longest: hours } })
    const car = buildCar()
      .task('Strip', fixed(10))
      .task('Refit', fixed(5))
      .estimate(onTask('Strip'), 10)
      .estimate(onTask('Refit'), 5)
    const { whole, movers, tasks } = estimateOf(car)
    expect(tasks.map(({ name, agreed }) => [name, agreed])).toEqual([
      ['Strip', 10],
      ['Refit', 5],
    ])
    expect(whole).toMatchObject({
      agreed: 15,
      accepted: 15,
      waiting: 0,
      band: { p50: 15, p80: 15 },
      words: 'Half the time 15 h or less; four times in five 15 h or less.',
    })
    expect(movers).toEqual([])
  })

  it('moves by its repair alone when its only task is certain', () => {
    const car = hanger('pitted').task('Strip', { hours: { shortest: 10, likely: 10, longest: 10 } })
    const { whole, movers, repairs } = estimateOf(car.estimate(onTask('Strip'), 10), fourteen)
    // A thousand draws: their quantiles lie within a few hundredths of those of the table.
    expect(whole.band!.p50).toBeCloseTo(repairs[0]!.band!.p50 + 10, 1)
    expect(whole.band!.p80).toBeCloseTo(repairs[0]!.band!.p80 + 10, 1)
    expect(movers).toHaveLength(1)
    expect(movers[0]).toMatchObject({ name: 'Hanger, left', repairId: repairId('Hanger, left') })
    expect(movers[0]!.share).toBeCloseTo(1, 9)
    expect(movers[0]!.words).toMatch(/^not seen yet: inner panel; 1\d(\.\d)? to 1\d(\.\d)? h$/)
  })

  it('sums what each payer has accepted and what waits', () => {
    const car = hanger('pitted')
      .task('Strip')
      .estimate(onTask('Strip'), 6, { accepted: false, payer: 'insurer' })
    expect(estimateOf(car).payers).toEqual([
      { payer: 'owner', accepted: 16, waiting: 0, asked: 0, waitingLines: 0 },
      { payer: 'insurer', accepted: 0, waiting: 6, asked: 0, waitingLines: 1 },
    ])
    expect(estimateOf(car).whole).toMatchObject({ agreed: 22, accepted: 16, waiting: 6, asked: 0 })
    car.vary('Longer section', [{ target: onGate('Hanger, left', 'fabricated'), hours: 5 }])
    expect(estimateOf(car).payers[0]).toMatchObject({ payer: 'owner', accepted: 16, waiting: 0, asked: 5 })
    expect(estimateOf(car).whole).toMatchObject({ agreed: 22, accepted: 16, waiting: 6, asked: 5 })
    car.decide('Longer section', 'accepted')
    expect(estimateOf(car).whole).toMatchObject({ agreed: 27, accepted: 21, waiting: 6, asked: 0 })
  })

  it('lets nobody accept lines of work that fell away', () => {
    const car = hanger('pitted').repair('Gutter')
    car.estimate(onGate('Gutter', 'opened'), 4, { accepted: false })
    car.add('repairRetired', { repairId: repairId('Gutter'), reason: 'It is sound.' })
    expect(estimateOf(car).payers).toMatchObject([{ payer: 'owner', waiting: 0, waitingLines: 0 }])
  })

  it('has words and no figure that is not a number when nothing is there', () => {
    const empty = estimateOf(buildCar())
    expect(empty).toMatchObject({ repairs: [], tasks: [], movers: [], payers: [], scale: 0 })
    expect(empty.whole).toMatchObject({ agreed: 0, band: null, words: 'Nothing is estimated yet.' })
    for (const car of [buildCar(), hanger(null), buildCar().repair('Unpriced')])
      expect(numbersIn(estimateOf(car)).filter((value) => !Number.isFinite(value))).toEqual([])
  })
})

const numbersIn = (value: unknown): readonly number[] => {
  if (typeof value === 'number') return [value]
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersIn) : []
}
