import { describe, expect, it } from 'vitest'
import { carBand, taskTable, USUAL_DRAWS, type CarWork } from '../../../domain/estimate/car-band.ts'
import { carCorrelation, CAR_CORRELATION_PRIOR } from '../../../domain/estimate/car-correlation.ts'
import { meanOfTable, TABLE_SCORES, valueAtScore } from '../../../domain/estimate/score-table.ts'
import { repairIdSchema, taskIdSchema } from '../../../domain/ids.ts'
import { normalQuantile } from '../../../domain/statistics/normal.ts'
import { createChance } from '../../support/simulated-chance.ts'

type Pieces = CarWork['repairs']

/** Normal around a mean, so that sums are known in closed form. */
const normalPiece = (name: string, mean: number, deviation: number, correlation: number): Pieces[number] => ({
  repairId: repairIdSchema.parse(`repair-${name}`),
  band: { mean, correlation, table: TABLE_SCORES.map((score) => mean + deviation * score) },
})

const pieces = (count: number, correlation: number): Pieces =>
  Array.from({ length: count }, (_, index) => normalPiece(`number-${index}`, 20, 5, correlation))

const task = (over: Partial<CarWork['tasks'][number]> = {}): CarWork['tasks'][number] => ({
  taskId: taskIdSchema.parse('task-strip'),
  points: { shortest: 4, likely: 5, longest: 12 },
  isDone: false,
  spent: 0,
  ...over,
})

const bandOf = (work: Partial<CarWork>, correlation = 0) => {
  const band = carBand({ repairs: [], tasks: [], ...work }, { ...USUAL_DRAWS, correlation })
  if (band === null) throw new Error('There should be a band.')
  return band
}

describe('the band of a car', () => {
  it('of one repair is that of the repair', () => {
    const { hours } = bandOf({ repairs: pieces(1, 0.2) })
    expect(hours.p50).toBeCloseTo(20, 0)
    expect(hours.p80).toBeCloseTo(20 + 5 * normalQuantile(0.8), 0)
    expect(hours.p90).toBeCloseTo(20 + 5 * normalQuantile(0.9), 0)
  })

  it('of several is that of a sum of correlated normals: variance n s^2 (1 + (n - 1) r)', () => {
    for (const correlation of [0, 0.2, 0.6]) {
      const { hours, mean } = bandOf({ repairs: pieces(10, correlation) })
      const deviation = 5 * Math.sqrt(10 * (1 + 9 * correlation))
      expect(mean).toBeCloseTo(200, 9)
      expect(hours.p50 / 200).toBeCloseTo(1, 1)
      expect(Math.abs(hours.p80 - (200 + deviation * normalQuantile(0.8)))).toBeLessThan(deviation * 0.12)
      expect(Math.abs(hours.p90 - (200 + deviation * normalQuantile(0.9)))).toBeLessThan(deviation * 0.15)
    }
  })

  it('is narrower for its mean than its repairs are', () => {
    const [one, twenty] = [bandOf({ repairs: pieces(1, 0.2) }), bandOf({ repairs: pieces(20, 0.2) })]
    const width = ({ hours, mean }: typeof one): number => (hours.p80 - hours.p50) / mean
    expect(width(twenty)).toBeLessThan(0.6 * width(one))
  })

  it('is the same for the same seed', () => {
    expect(bandOf({ repairs: pieces(6, 0.2) })).toEqual(bandOf({ repairs: pieces(6, 0.2) }))
  })

  it('names what moves it most, by its share of the variance', () => {
    const repairs = [
      normalPiece('steady', 30, 3, 0),
      normalPiece('wild', 10, 6, 0),
      normalPiece('sure', 50, 0, 0),
    ]
    const { movers } = bandOf({ repairs })
    expect(movers.map((mover) => mover.kind === 'repair' && mover.repairId)).toEqual([
      'repair-wild',
      'repair-steady',
    ])
    expect(movers[0]!.share).toBeCloseTo(36 / 45, 1)
    expect(movers.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9)
  })

  it('is null without work', () => {
    expect(carBand({ repairs: [], tasks: [] }, { ...USUAL_DRAWS, correlation: 0.2 })).toBeNull()
  })
})

describe('the tasks of a car', () => {
  it('are the modified PERT beta of their three points: 4, 5, 12', () => {
    // P50, P80 and P90, and the mean (4 + 20 + 12) / 6; see beta-and-normal.test.ts.
    const { hours } = bandOf({ tasks: [task()] })
    expect(hours.p50).toBeCloseTo(5.768959, 1)
    expect(hours.p80).toBeCloseTo(7.102761, 1)
    expect(hours.p90).toBeCloseTo(7.871226, 1)
    expect(meanOfTable(taskTable(task().points, 0))).toBeCloseTo(6, 1)
  })

  it('count what is spent once done, and never less while in work', () => {
    expect(bandOf({ tasks: [task({ isDone: true, spent: 9 })] }).hours).toEqual({ p50: 9, p80: 9, p90: 9 })
    const begun = taskTable(task().points, 7)
    expect(begun[0]).toBeGreaterThanOrEqual(7)
    expect(valueAtScore(begun, 0)).toBeGreaterThan(7)
    expect(taskTable(task().points, 14).every((hours) => hours === 14)).toBe(true)
  })

  it('without doubt take what they are said to', () => {
    const sure = { shortest: 3, likely: 3, longest: 3 }
    expect(bandOf({ tasks: [task({ points: sure })] }).hours).toEqual({ p50: 3, p80: 3, p90: 3 })
  })

  it('are left out, with the reason, when their three points are out of order', () => {
    const wrong = task({ points: { shortest: 6, likely: 5, longest: 12 } })
    const { leftOut, mean } = bandOf({ repairs: pieces(1, 0), tasks: [wrong] })
    expect(leftOut).toEqual([
      {
        taskId: 'task-strip',
        why: 'Its hours are not in order. Give them as shortest, most likely, longest.',
      },
    ])
    expect(mean).toBeCloseTo(20, 9)
  })
})

describe('what the repairs of a car have in common', () => {
  /** Cars of five repairs whose logarithms have this correlation. */
  const cars = (count: number, correlation: number): readonly (readonly number[])[] => {
    const { normal } = createChance(11)
    return Array.from({ length: count }, () => {
      const luck = normal()
      return Array.from(
        { length: 5 },
        () => 0.3 * (Math.sqrt(correlation) * luck + Math.sqrt(1 - correlation) * normal()),
      )
    })
  }

  it('is the prior while no car has two finished repairs', () => {
    expect(carCorrelation([])).toBe(CAR_CORRELATION_PRIOR)
    expect(carCorrelation([[0.3], [-0.2]])).toBe(CAR_CORRELATION_PRIOR)
  })

  it('is learned from many cars, whatever the prior says', () => {
    expect(carCorrelation(cars(400, 0.5))).toBeCloseTo(0.5, 1)
    expect(carCorrelation(cars(400, 0))).toBeLessThan(0.05)
  })

  it('from few cars lies between the prior and what was seen', () => {
    const alike = [
      [0.4, 0.41, 0.39],
      [-0.4, -0.41, -0.39],
    ]
    expect(carCorrelation(alike)).toBeGreaterThan(CAR_CORRELATION_PRIOR)
    expect(carCorrelation(alike)).toBeLessThan(0.5)
  })
})
