import { describe, expect, it } from 'vitest'
import type { FinishedRepair } from '../../../domain/estimate/finished-repair.ts'
import { type GradeMultiples, MULTIPLE_PRIOR } from '../../../domain/estimate/grade-multiples.ts'
import { countFound, type FoundLayer } from '../../../domain/estimate/hidden-grades.ts'
import { learnSeverity, tilted } from '../../../domain/estimate/severity.ts'
import { type Grade, GRADES } from '../../../domain/facts/shapes.ts'
import { typeIdSchema } from '../../../domain/ids.ts'
import { usualTruth } from '../../support/workshop-truth.ts'
import { createSimulatedWorkshop, simulatedHistory } from '../../support/simulated-workshop.ts'
import { createEstimateHistory } from '../../support/estimate-history.ts'

const TRUTH = usualTruth({ carCorrelation: 0, reworkShare: 0 })
const ROWS = simulatedHistory(createSimulatedWorkshop(2, TRUTH), TRUTH, 200)

const gradeMultiples = (finished: readonly FinishedRepair[]): GradeMultiples =>
  createEstimateHistory(finished).multiples

describe('what hidden grades take', () => {
  it('is the stated prior while nothing is finished', () => {
    const multiples = gradeMultiples([])
    expect(GRADES.map((grade) => multiples[grade].multiple)).toEqual(
      GRADES.map((grade) => expect.closeTo(MULTIPLE_PRIOR[grade], 12)),
    )
  })

  it('rises with the grade in the prior', () => {
    const prior = GRADES.map((grade) => MULTIPLE_PRIOR[grade])
    expect(prior).toEqual(prior.toSorted((a, b) => a - b))
  })

  it('is found again from many repairs, grade against grade, though types run over differently', () => {
    const { sound, pitted, gone } = gradeMultiples(ROWS)
    const { multiples } = TRUTH
    expect(Math.abs(gone.multiple / pitted.multiple / (multiples.gone / multiples.pitted) - 1)).toBeLessThan(
      0.06,
    )
    expect(
      Math.abs(sound.multiple / pitted.multiple / (multiples.sound / multiples.pitted) - 1),
    ).toBeLessThan(0.06)
    expect(gone.unsure).toBeLessThan(1.01)
  })

  it('moves little from the prior for one repair, and says that it is unsure', () => {
    const one = { ...ROWS.find(({ worstHidden }) => worstHidden === 'gone')!, typeId: null }
    const { gone, holed } = gradeMultiples([one])
    expect(Math.abs(gone.multiple / MULTIPLE_PRIOR.gone - 1)).toBeLessThan(0.25)
    expect(gone.unsure).toBeGreaterThan(1.1)
    expect([gone.repairs, holed.repairs]).toEqual([1, 0])
    expect(holed.multiple).toBeCloseTo(MULTIPLE_PRIOR.holed, 1)
  })

  it('does not count a bad car to the grades that it hid', () => {
    const gone = ROWS.filter(({ worstHidden }) => worstHidden === 'gone').slice(0, 5)
    const onOne = gradeMultiples(gone.map((repair) => ({ ...repair, visitId: gone[0]!.visitId })))
    const onFive = gradeMultiples(gone.map((repair, at) => ({ ...repair, visitId: ROWS[5 * at]!.visitId })))
    const moved = ({ gone: { multiple, prior } }: typeof onOne) => Math.abs(Math.log(multiple / prior))
    expect(moved(onOne)).toBeLessThan(0.9 * moved(onFive))
  })
})

describe('how much worse a type hides than the prior says', () => {
  const found = (count: number, outside: Grade, inside: Grade): readonly FoundLayer[] =>
    Array.from({ length: count }, () => ({ outside, inside }))
  const severityOf = (layers: readonly FoundLayer[], believed = 0): number =>
    learnSeverity(countFound(layers), believed)

  it('is as believed without repairs', () => {
    expect(severityOf([])).toBe(0)
    expect(severityOf([], 0.3)).toBeCloseTo(0.3, 12)
  })

  it('leaves the prior as it is at 0 and keeps shares adding up to 1', () => {
    expect(tilted('pitted', 0)).toEqual([0.03, 0.1, 0.37, 0.4, 0.1].map((share) => expect.closeTo(share, 12)))
    for (const severity of [-2, 0.7, 3])
      expect(tilted(null, severity).reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12)
  })

  it('tells of outside grades that were never seen: gone behind surface makes holed likelier behind sound', () => {
    const severity = severityOf(found(6, 'surface', 'gone'))
    expect(severity).toBeGreaterThan(0.5)
    expect(tilted('sound', severity)[3]!).toBeGreaterThan(tilted('sound', 0)[3]!)
  })

  it('is near the truth from many repairs: the mean grade seen is the mean grade expected', () => {
    const many = [...found(60, 'pitted', 'holed'), ...found(40, 'pitted', 'gone')]
    const mean = tilted('pitted', severityOf(many)).reduce((sum, share, step) => sum + share * step, 0)
    expect(mean).toBeCloseTo(3.4, 1)
  })

  it('differs by type: sills hide worse than floor edges', () => {
    const { worstOf } = createEstimateHistory(ROWS)
    const gone = (type: string): number =>
      worstOf(typeIdSchema.parse(type), 'pitted').grades.at(-1)!.likelihood.mean
    expect(gone('type-sills')).toBeGreaterThan(2 * gone('type-floor-edges'))
  })
})

describe('the layers of a type', () => {
  it('are told one by one, by their names, and those not seen count nowhere', () => {
    const sill = ROWS.find(({ typeId }) => typeId === 'type-sills')!
    const row = {
      ...sill,
      outside: 'surface' as const,
      hidden: [
        { name: 'inner panel', grade: 'holed' as const },
        { name: 'strengthener', grade: null },
      ],
    }
    const { layerOf } = createEstimateHistory([row])
    const inner = layerOf(sill.typeId, 'inner panel', 'surface')
    expect([inner.seen, inner.grades.find(({ grade }) => grade === 'holed')?.found]).toEqual([1, 1])
    expect(layerOf(sill.typeId, 'strengthener', 'surface').seen).toBe(0)
  })
})
