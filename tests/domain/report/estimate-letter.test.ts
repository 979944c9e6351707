import { describe, expect, it } from 'vitest'
import type { FinishedRepair } from '../../../domain/estimate/finished-repair.ts'
import type { Grade } from '../../../domain/facts/shapes.ts'
import { type EstimateLetter, estimateLetter } from '../../../domain/report/estimate-letter.ts'
import { expectText, hoursPlain } from '../../../domain/report/estimate-repair-told.ts'
import { buildCar, type CarBuilder, onGate, onTask, repairId } from '../../support/car-builder.ts'
import { finishedLike, typeId } from '../../support/finished-repairs.ts'
import { layerId, repairPlan } from '../../support/plans.ts'
import { buildWorkshop, nameOf } from '../../support/workshop-builder.ts'
import { createEstimateHistory } from '../../support/estimate-history.ts'

const now = Date.parse('2026-11-25T10:40:00Z')
const hangerType = { typeId: typeId('hanger'), version: 1, plan: repairPlan('Spring hanger') }
const workshop = buildWorkshop((add) => add('typeSaved', hangerType))
const withRates = buildWorkshop((add) => {
  add('typeSaved', hangerType)
  add('ratesSet', { from: '2026-01-01', usual: 60_00, bySkill: [] })
})

interface LetterOver {
  readonly finished?: readonly FinishedRepair[]
  readonly rates?: boolean
}
const letterOf = (car: CarBuilder, { finished = [], rates = false }: LetterOver = {}): EstimateLetter =>
  estimateLetter({
    car: car.car(),
    finished,
    history: createEstimateHistory(finished),
    now,
    workshop: rates ? withRates : workshop,
    nameOf,
  })!

function hanger(outside: Grade | null, over: { loadBearing?: boolean } = {}): CarBuilder {
  const car = buildCar().add('repairAdded', {
    repairId: repairId('Hanger, left'),
    type: { typeId: typeId('hanger'), version: 1 },
    plan: repairPlan('Hanger, left', over),
    payer: 'owner',
  })
  return outside === null
    ? car
    : car.add('outsideGraded', { repairId: repairId('Hanger, left'), grade: outside, note: '' })
}
const repairTexts = (letter: EstimateLetter) => letter.proposed!.repairs.map(({ texts }) => texts)
const headings = ({ sections }: EstimateLetter) => sections.map(({ heading }) => heading)
const sectionText = ({ looked, sections }: EstimateLetter, name: string): string =>
  JSON.stringify([looked, ...sections].find(({ heading }) => heading === name) ?? null)

describe('hours in plain words', () => {
  it('are said as expected and as they may become, singular too', () => {
    expect(expectText({ p50: 38.2, p80: 51.7 }, true)).toBe(
      'We expect 38 hours; behind metal we have not opened yet it may become 52 hours.',
    )
    expect(expectText({ p50: 1, p80: 2.5 }, false)).toBe('We expect 1 hour; it may become 2.5 hours.')
    expect(expectText({ p50: 30.1, p80: 30.3 }, true)).toBe('We expect 30 hours, and hardly more.')
    expect([hoursPlain(1), hoursPlain(0), hoursPlain(1200.4)]).toEqual(['1 hour', '0 hours', '1,200 hours'])
  })
})

describe('the owner’s estimate', () => {
  const fourteen = [...finishedLike(9, 'pitted', 'holed'), ...finishedLike(5, 'pitted', 'pitted')]

  it('says what was looked at, what is proposed and what it rests on', () => {
    const letter = letterOf(hanger('pitted').agree('Hanger, left'), { finished: fourteen })
    expect(letter).toMatchObject({
      workshop: 'Harrow Lane',
      subtitle: 'Estimate of Wed 25 Nov 2026',
      written: 'Wed 25 Nov 2026',
      greeting: 'Dear Owner,',
    })
    expect(letter.opening[0]).toMatch(
      /^This is our estimate for your .+: 1 repair, 16 hours in all\. We expect 1\d(\.\d)? hours; behind metal we have not opened yet it may become 1\d(\.\d)? hours\.$/,
    )
    expect(sectionText(letter, 'What we looked at')).toContain(
      'We judged the repair from outside, by what can be seen without cutting. None of it is opened: what lies behind we know by likelihood only.',
    )
    const [texts] = repairTexts(letter)
    expect(texts![0]).toBe(
      'Right rear. What can be seen from outside is pitted: eaten into, but not through. Behind it nobody has seen the inner panel yet. In our own workshop: of 14 spring hangers graded pitted from outside, 9 were holed inside.',
    )
    expect(texts![1]).toMatch(/^16 hours are agreed\. We expect .+ hours; behind metal we have not opened/)
  })

  it('says what is not known where nobody has looked and nothing is finished', () => {
    const letter = letterOf(hanger(null).repair('Boot floor').agree('Hanger, left'))
    expect(sectionText(letter, 'What we looked at')).toContain(
      'We have not judged any of the repairs from outside yet.',
    )
    expect(repairTexts(letter)[0]![0]).toContain('We have not judged it from outside yet.')
    expect(repairTexts(letter)[0]![0]).toContain(
      'We go by the usual experience that metal is worse inside than out.',
    )
    const unknown = sectionText(letter, 'What we do not know yet')
    expect(unknown).toContain('How the metal looks behind all of the repairs: it shows when it is opened.')
    expect(unknown).toContain('How all of the repairs look from outside: we have still to look there.')
  })

  it('says what was found once it is open, and what was said before', () => {
    const car = hanger('surface')
      .agree('Hanger, left')
      .pass('Hanger, left', 'opened')
      .add('layerGraded', {
        repairId: repairId('Hanger, left'),
        layerId: layerId('Hanger, left', 'inner'),
        grade: 'holed',
        judgedBy: '',
        remainingMm: null,
        decision: 'patch',
      })
      .pass('Hanger, left', 'assessed')
    const letter = letterOf(car)
    const [texts] = repairTexts(letter)
    expect(texts![0]).toContain(
      'We have opened it and judged every layer: the inner panel is rusted through.',
    )
    expect(texts![1]).toMatch(/\(Before opening: 1\d(\.\d)? to \d\d(\.\d)? h\.\)$/)
    expect(texts![1]).not.toContain('metal we have not opened')
    expect(headings(letter)).not.toContain('What we do not know yet')
    const finished = letterOf(car.passTo('Hanger, left', 'painted'))
    expect(repairTexts(finished)[0]).toEqual(['Right rear. It is finished.'])
  })

  it('puts hours to each payer, with money where rates are set, and asks for what waits', () => {
    const car = hanger('pitted')
      .agree('Hanger, left')
      .task('Strip')
      .estimate(onTask('Strip'), 1, { accepted: false })
    const plain = letterOf(car)
    expect(sectionText(plain, 'What it comes to')).toContain('"figures":["16.0 h","1.0 h"]')
    expect(sectionText(plain, 'What it comes to')).toContain('The figures are hours; ask us for our rates.')
    expect(sectionText(plain, 'What we need from you')).toContain('1 hour of it waits for your answer.')
    // 17 h at €60.00, by hand.
    const priced = sectionText(letterOf(car, { rates: true }), 'What it comes to')
    expect(priced).toContain('"figures":["16.0 h","1.0 h","€1,020.00"]')
    expect(priced).toContain('Amounts are without tax.')
    expect(sectionText(letterOf(car, { rates: true }), 'How it is charged')).toContain(
      'By the hour, at €60.00: you pay',
    )
    car.vary('Longer section', [{ target: onTask('Strip'), hours: 3 }])
    expect(sectionText(letterOf(car), 'What it comes to')).toContain(
      'Variations of 3 hours more wait for an answer, because of what we found; they are not among these.',
    )
    expect(headings(letterOf(hanger('pitted').agree('Hanger, left')))).not.toContain('What we need from you')
  })

  it('says how it is charged, what happens when more is found, and that it certifies nothing', () => {
    const letter = letterOf(hanger('pitted', { loadBearing: true }).agree('Hanger, left'))
    expect(sectionText(letter, 'How it is charged')).toContain('By the hour')
    expect(sectionText(letter, 'If we find more')).toContain('Nothing of it is done without your answer.')
    expect(letter.cautions).toHaveLength(2)
    expect(letter.cautions[0]).toMatch(/^Load-bearing metal: .*Here this concerns: hanger, left\.$/)
    expect(letter.cautions[1]).toContain('certifies nothing')
    expect(sectionText(letter, 'What could move it most')).toContain(
      'Hanger, left; not seen yet: inner panel',
    )
  })

  it('leaves the hours that work took out where the price is fixed', () => {
    const car = buildCar()
      .visit('fixed', { charge: { by: 'fixed' } })
      .repair('Boot floor')
      .agree('Boot floor')
      .log('one', 'Joss', { kind: 'day', date: '2026-11-03', hours: 18 }, [onGate('Boot floor', 'welded')])
      .passTo('Boot floor', 'painted')
    const letter = letterOf(car)
    expect(repairTexts(letter)[0]).toEqual(['Right rear. It is finished.'])
    expect(letter.proposed!.repairs[0]!.row.took).toBeNull()
    expect(sectionText(letter, 'How it is charged')).toContain('At a fixed price')
  })

  it('is quiet where there is nothing to say, and not there when nothing is estimated', () => {
    const tasks = letterOf(buildCar().task('Strip').estimate(onTask('Strip'), 4))
    expect(tasks.proposed).toBeNull()
    expect(tasks.opening[0]).toContain('1 task, 4 hours in all')
    expect(sectionText(tasks, 'What we looked at')).toContain('no repair of its metal is in it')
    const nothing = { finished: [], history: createEstimateHistory([]), now, workshop, nameOf }
    expect(estimateLetter({ car: buildCar().car(), ...nothing })).toBeNull()
  })
})
