import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { commandIdSchema, reportIdSchema } from '../../../domain/ids.ts'
import { createTestHost, type TestHost } from '../../support/host.ts'
import { runScript } from '../../support/run-script.ts'
import { choicesOf } from '../../support/owner-report.ts'
import { manager } from '../../support/workshop.ts'

let host: TestHost
let out: string
beforeEach(() => {
  out = mkdtempSync(join(tmpdir(), 'panelwright-reports-'))
  return () => rmSync(out, { recursive: true })
})

const dataDir = () => host.workshop.dataDir!
const reports = (...args: readonly string[]) => runScript('electron/cli/reports.ts', ...args)
const issuedFile = (ending: string) => {
  const folder = join(dataDir(), 'reports')
  return join(
    folder,
    readdirSync(folder).find((name) => name.endsWith(ending))!,
  )
}

describe('the reports of a workshop at work', () => {
  beforeAll(async () => {
    host = await createTestHost()
    const issued = host.workshop.addCar('Larkspur 4', 'R-1')
    host.workshop.addCar('Larkspur 5', 'R-2')
    const screen = await host.openScreen()
    await screen.signIn(manager)
    const answer = await screen.client.issueReport.mutate({
      visitId: host.workshop.car(issued).currentVisit!,
      week: '2026-W48',
      choices: choicesOf({ words: 'Issued words.' }),
      reportId: reportIdSchema.parse('report-one'),
      commandId: commandIdSchema.parse('command-issue'),
    })
    if (!answer.ok) throw new Error(answer.refusal.message)
  })
  afterAll(() => host.close())

  test('a PDF and a page a car are written beside a running host: the issued ones as they are, the others marked as not issued', async () => {
    const { code, out: said } = await reports('--data', dataDir(), '--week', '2026-W48', '--out', out)
    expect(said).toContain('Larkspur 4, shell R-1: issued')
    expect(said).toContain('Larkspur 5, shell R-2: not issued')
    expect(said).toContain('2 reports of 2026-W48')
    expect(code).toBe(0)
    expect(readdirSync(out).toSorted()).toEqual([
      '2026-W48-R-1.html',
      '2026-W48-R-1.pdf',
      '2026-W48-R-2.html',
      '2026-W48-R-2.pdf',
    ])
    for (const ending of ['pdf', 'html'])
      expect(readFileSync(join(out, `2026-W48-R-1.${ending}`))).toEqual(readFileSync(issuedFile(ending)))
    expect(readFileSync(join(out, '2026-W48-R-2.html'), 'utf8')).toContain('Draft, not issued')
    const draft = readFileSync(join(out, '2026-W48-R-2.pdf'), 'latin1')
    expect(draft.startsWith('%PDF-1.7')).toBe(true)
    // Nothing was issued by it.
    expect(readdirSync(join(dataDir(), 'reports'))).toHaveLength(2)
  })

  test('a week before any car came has no reports', async () => {
    const { code, out: said } = await reports('--data', dataDir(), '--week', '2026-W20', '--out', out)
    expect({ code, files: readdirSync(out) }).toEqual({ code: 0, files: [] })
    expect(said).toContain('0 reports of 2026-W20')
  })

  test('a folder that cannot be written to is said, with what to do', async () => {
    const file = join(out, 'a file')
    writeFileSync(file, '')
    const { code, out: said } = await reports('--data', dataDir(), '--week', '2026-W48', '--out', file)
    expect(code).toBe(2)
    expect(said).toContain(`${file} cannot be written to (EEXIST).`)
    expect(said).toContain('name another folder')
  })

  // The last one, as it spoils the file.
  test('an issued report whose file was changed is said to be lost, and the others are written', async () => {
    writeFileSync(issuedFile('pdf'), 'something else')
    const { code, out: said } = await reports('--data', dataDir(), '--week', '2026-W48', '--out', out)
    expect(code).toBe(1)
    expect(said).toContain('Larkspur 4, shell R-1: the PDF of its issued report is gone or was changed')
    expect(readdirSync(out).toSorted()).toEqual([
      '2026-W48-R-1.html',
      '2026-W48-R-2.html',
      '2026-W48-R-2.pdf',
    ])
  })
})

test.each([
  ['no week', ['--out', 'x'], '--week is missing'],
  ['a week that does not exist', ['--week', '2025-W53', '--out', 'x'], 'weeks 1 to 52'],
  ['no place to write to', ['--week', '2026-W48'], '--out is missing'],
  ['an unknown flag', ['--weeks', '48'], "Unknown option '--weeks'"],
])('%s is said, with how the command is given', async (_what, args, words) => {
  const { code, out: said } = await reports(...args)
  expect(code).toBe(2)
  expect(said).toContain(words)
  expect(said).toContain('npm run reports --')
})
