import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it, test } from 'vitest'
import { normalQuantile } from '../../domain/statistics/normal.ts'
import { createRandom } from '../support/random.ts'
import { backTest, benchForecast } from './forecast.ts'
import { type ColumnChoice, type Job, readJobs } from './job-columns.ts'
import { readJobTable } from './job-table.ts'

const CSV = `\uFEFFId,Kind,"Estimated, hours",Actual hours,Actual weeks,Finished
1,sill,20,25.5,2,2026-03-02
2,"arch, rear",8,,1,2026-03-09
3,sill,NA,12,1,2026-03-10
4,arch,10,9,1,2026-02-27
`

const ARFF = `% invented
@RELATION 'finished jobs'
@attribute Id string
@attribute 'Kind of job' {sill,'wheel arch'}
@attribute First.estimate numeric
@attribute Estimated.end date "yyyy-MM-dd"
@attribute Actual.hours real

@data
a1,sill,20,2026-03-01,25.5
% a remark
a2,'wheel arch',8,?,10
a3, 'sill, inner' ,?,?,7
`

const read = (text: string, choice: ColumnChoice = {}) => readJobs(readJobTable(text, 'jobs'), choice)

describe('a table of finished jobs', () => {
  it('is read from CSV by the names of its columns', () => {
    const { jobs, skipped } = read(CSV, { date: 'finished', group: 'Kind' })
    expect(jobs).toEqual([
      { estimate: 20, actual: 25.5, time: Date.UTC(2026, 2, 2), group: 'sill' },
      { estimate: 10, actual: 9, time: Date.UTC(2026, 1, 27), group: 'arch' },
    ])
    expect(skipped).toBe(2)
  })

  it('is read from ARFF with quoted names and cells, remarks and unknown values', () => {
    const { jobs, skipped } = read(ARFF, { group: 'Kind of job' })
    expect(jobs).toEqual([
      { estimate: 20, actual: 25.5, time: null, group: 'sill' },
      { estimate: 8, actual: 10, time: null, group: 'wheel arch' },
    ])
    expect(skipped).toBe(1)
  })

  it('takes years and times of day for dates', () => {
    const timed = (cells: readonly string[]) =>
      read(['estimate,actual,day', ...cells.map((cell) => `1,1,${cell}`)].join('\n'), {
        date: 'day',
      }).jobs.map(({ time }) => time)
    expect(timed(['1994', '1996'])).toEqual([1994, 1996])
    expect(timed(['2026/3/2', '2026-03-02T08:30:00Z', ''])).toEqual([
      Date.UTC(2026, 2, 2),
      Date.UTC(2026, 2, 2, 8, 30),
    ])
  })

  test.each([
    ['', {}, /empty/],
    ['a,b\n', {}, /has no rows/],
    ['a,b\n1,2\n', {}, /No column of numbers is called the estimate.*--estimate: a, b/],
    ['a,b\n1,2\n', { estimate: 'c' }, /no column 'c'\. Give --estimate one of: a, b/],
    ['estimate,estimate of paint,actual\n1,2,3\n', {}, /Several columns may be the estimate/],
    ['estimate,actual\n1,2,3\n', {}, /line 2: there are 3 cells for 2 columns/],
    ['estimate,actual\n"1,2\n', {}, /quotation mark/],
    ['a,actual\n1 h,2\n', { estimate: 'a' }, /Line 2, column 'a': '1 h' is not a number/],
    [
      'estimate,actual,day\n1,2,3.4.26\n2,2,x\n',
      { date: 'day' },
      /Line 2, column 'day': '3\.4\.26' is not a date/,
    ],
    ['@relation a\n@data\n1,2\n', {}, /no @attribute lines/],
    ['@relation a\n@attribute\n@data\n1,2\n', {}, /line 2: write @attribute/],
    ['@relation a\n@attribute b numeric\n@data\n{0 2}\n', {}, /line 4: sparse rows/],
    [`@relation a\n@attribute b numeric\n@data\n'2\n`, {}, /line 4: a cell in quotation marks/],
  ])('refuses %j with what to do', (text, choice, message) => {
    expect(() => read(text, choice)).toThrow(message)
  })
})

const jobsOf = (
  ratios: readonly number[],
  change: (at: number) => Partial<Job> = () => ({}),
): readonly Job[] =>
  ratios.map((ratio, at) => ({ estimate: 10, actual: 10 * ratio, time: null, group: '', ...change(at) }))

function randomRatios(count: number, seed: number): readonly number[] {
  const random = createRandom(seed)
  return Array.from({ length: count }, () =>
    Math.exp(0.1 + 0.35 * normalQuantile(0.0005 + 0.999 * random.next())),
  )
}

describe('a back-test', () => {
  it('scores from the 20th job on', () => {
    expect(backTest(jobsOf(randomRatios(50, 1))).jobs).toBe(31)
    expect(backTest(jobsOf(randomRatios(19, 1)))).toEqual({
      jobs: 0,
      coverage80: null,
      coverage90: null,
      pinball80: null,
      pinball90: null,
    })
  })

  it('goes in order of time, wherever the jobs stand in the file', () => {
    const inOrder = jobsOf(randomRatios(60, 2), (at) => ({ time: at }))
    expect(backTest(inOrder.toReversed())).toEqual(backTest(inOrder))
  })

  it('knows nothing of a job before it, nor of others of its date', () => {
    const ratios = Array.from({ length: 20 }, () => 1)
    const alone = backTest(jobsOf([...ratios, 3], (at) => ({ time: at })))
    // 0.8 x (3 - 1) for the last, nothing for the 20th, where all before took their estimate.
    expect(alone.pinball80?.empirical).toBeCloseTo(1.6 / 2, 12)
    const together = backTest(jobsOf([...ratios, 3, 3, 3], (at) => ({ time: Math.min(at, 20) })))
    expect(together.pinball80?.empirical).toBeCloseTo((3 * 1.6) / 4, 12)
  })

  it('gives the raw estimate the loss of ratio 1 (by hand)', () => {
    const figures = backTest(jobsOf([...Array.from({ length: 19 }, () => 1), 1.5, 0.5]))
    expect(figures.pinball80?.raw).toBeCloseTo((0.8 * 0.5 + 0.2 * 0.5) / 2, 12)
    expect(figures.pinball90?.raw).toBeCloseTo((0.9 * 0.5 + 0.1 * 0.5) / 2, 12)
  })

  it('covers what it claims of steady jobs and loses no more than the estimate or 2 % over the plain quantile', () => {
    const figures = backTest(jobsOf(randomRatios(319, 3)))
    // 95 % binomial intervals of 300.
    expect(Math.abs(figures.coverage80! - 0.8)).toBeLessThan(0.046)
    expect(Math.abs(figures.coverage90! - 0.9)).toBeLessThan(0.034)
    for (const { ours, raw, empirical } of [figures.pinball80!, figures.pinball90!])
      expect(ours).toBeLessThan(Math.min(raw, 1.02 * empirical))
  })

  it('follows jobs that drift where the plain quantile stays behind', () => {
    const figures = backTest(jobsOf(randomRatios(145, 4).map((ratio, at) => ratio * Math.exp(at / 290))))
    expect(figures.coverage80).toBeGreaterThan(0.7)
    expect(figures.pinball80!.ours).toBeLessThan(0.97 * figures.pinball80!.empirical)
  })

  it('tells types apart that differ', () => {
    const bias = [0.7, 1, 1.5, 2.1]
    const jobs = jobsOf(
      randomRatios(145, 5).map((ratio, at) => ratio ** 0.5 * bias[at % 4]!),
      (at) => ({ group: `type ${at % 4}` }),
    )
    const figures = backTest(jobs)
    expect(figures.pinball80!.ours).toBeLessThan(0.7 * figures.pinball80!.empirical)
  })
})

describe('the bench', () => {
  const folder = mkdtempSync(join(tmpdir(), 'forecast-'))
  afterAll(() => rmSync(folder, { recursive: true }))

  it('answers for a file and says what is missing', () => {
    const file = join(folder, 'jobs.csv')
    writeFileSync(
      file,
      ['planned,real', ...randomRatios(30, 6).map((ratio) => `10,${10 * ratio}`), '0,4'].join('\n'),
    )
    const figures = benchForecast(['--file', file, '--estimate', 'Planned', '--actual', 'real'])
    expect([figures.jobs, figures.skipped]).toEqual([11, 1])
    expect(() => benchForecast([])).toThrow(/Say which file/)
    expect(() => benchForecast(['--file', join(folder, 'none.csv')])).toThrow(/cannot be read/)
    expect(() => benchForecast(['--file', file])).toThrow(/--estimate: planned, real/)
  })
})
