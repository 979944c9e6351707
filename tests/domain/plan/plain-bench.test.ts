import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, it, onTestFinished } from 'vitest'
import { readSm } from '../../support/psplib.ts'
import { runScript } from '../../support/run-script.ts'

/** Two jobs of 3 and 4 on one machine between two dummies: one after the other ends at 7, side by side at 4. */
const PROJECT = `
PRECEDENCE RELATIONS:
jobnr.    #modes  #successors   successors
   1        1          2           2   3
   2        1          1           4
   3        1          1           4
   4        1          0
************************************************************************
REQUESTS/DURATIONS:
jobnr. mode duration  R 1
------------------------------------------------------------------------
  1      1     0       0
  2      1     3       1
  3      1     4       1
  4      1     0       0
************************************************************************
RESOURCEAVAILABILITIES:
  R 1
    1
************************************************************************
`
const HEADING = 'set,instance,cpm_lb,lb,ub,proved_optimal\n'

const folderWith = (files: Readonly<Record<string, string>>): string => {
  const folder = mkdtempSync(join(tmpdir(), 'panelwright-projects-'))
  onTestFinished(() => rmSync(folder, { recursive: true }))
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text)
  return folder
}

const bench = (folder: string, ...more: readonly string[]) =>
  runScript('tests/bench/main.ts', 'plan', '--psplib', folder, '--schedules', '20', ...more)

const lastLine = (out: string): unknown => JSON.parse(out.trim().split('\n').at(-1) ?? '')

describe('the bench of plain projects', () => {
  it('compares with the optimum when every one is proved, and with the critical path when not', async () => {
    // By hand: the plan ends at 7, the optimum; the critical path is 4, and 7 is 75 % over it.
    const proved = folderWith({ 'x1.sm': PROJECT, 'best_known.csv': `${HEADING}x,x1.sm,4,7,7,1\n` })
    const { code, out } = await bench(proved, '--json')
    expect(code, out).toBe(0)
    expect(lastLine(out)).toMatchObject({
      instances: 1,
      schedules: 20,
      averageDeviationPercent: 0,
      worstDeviationPercent: 0,
    })
    const open = folderWith({ 'x1.sm': PROJECT, 'best_known.csv': `${HEADING}x,x1.sm,4,6,7,0\n` })
    expect(lastLine((await bench(open, '--json')).out)).toMatchObject({ averageDeviationPercent: 75 })
  })

  it.each([
    ['no .sm files', {}],
    ['best_known.csv is not there', { 'x1.sm': PROJECT }],
    ['must have the columns', { 'x1.sm': PROJECT, 'best_known.csv': 'instance\nx1.sm\n' }],
    [
      "x1.sm: there is no section 'REQUESTS",
      { 'x1.sm': PROJECT.replace('REQUESTS', ''), 'best_known.csv': HEADING },
    ],
  ])('says what is wrong with a folder: %s', async (words, files) => {
    const { code, out } = await bench(folderWith(files))
    expect(code).toBe(1)
    expect(out).toContain(words)
  })

  it('names the benches there are', async () => {
    const { code, out } = await runScript('tests/bench/main.ts', 'nothing')
    expect(code).toBe(2)
    expect(out).toMatch(/^There is no bench 'nothing'. Benches: .*\bforecast\b.*\bplan\b.*\bworkshop\b/)
  })
})

describe('a project file', () => {
  it('is read with jobs counted from 0', () => {
    expect(readSm(PROJECT, 'x1.sm')).toEqual({
      durations: [0, 3, 4, 0],
      requests: [[0], [1], [1], [0]],
      capacities: [1],
      successors: [[1, 2], [3], [3], []],
    })
  })

  it.each([
    ['the successors of job 2 do not fit', PROJECT.replace('2        1          1           4', '2 1 2 4')],
    ['job 3 has 2 modes', PROJECT.replace('3        1          1', '3 2 1')],
    ['4 jobs with successors and 3 with durations', PROJECT.replace('  3      1     4       1\n', '')],
    ['requests of job 2 are missing', PROJECT.replace('2      1     3       1', '2 1 3')],
    ['no line of capacities', PROJECT.replace('  R 1\n    1\n', '  R 1\n')],
  ])('that does not hold together is refused: %s', (words, text) => {
    expect(() => readSm(text, 'x1.sm')).toThrow(words)
  })
})
