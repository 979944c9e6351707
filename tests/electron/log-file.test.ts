import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { openLog, withoutSecrets } from '../../electron/log-file.ts'

let folder: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'panelwright-log-'))
})
afterEach(() => rmSync(folder, { recursive: true }))

const opened = (into = folder) => {
  const printed: string[] = []
  const clock = () => Date.parse('2026-11-23T08:00:00.250+01:00')
  return { printed, log: openLog({ folder: into, clock, print: (line) => printed.push(line) }) }
}
const textOf = (name: string) => readFileSync(join(folder, name), 'utf8')

test('a line is printed as it is, and kept with its time in UTC', () => {
  const { log, printed } = opened()
  log('planner: it took longer than 120 s')
  expect(printed).toEqual(['planner: it took longer than 120 s'])
  expect(textOf('panelwright.log')).toBe('2026-11-23T07:00:00.250Z planner: it took longer than 120 s\n')
})

test('nobody but the person who runs the host may read it', () => {
  const { log } = opened(join(folder, 'logs'))
  log('a line')
  expect(statSync(join(folder, 'logs')).mode & 0o077).toBe(0)
  expect(statSync(join(folder, 'logs', 'panelwright.log')).mode & 0o077).toBe(0)
})

test('five files of 1 MB are kept at most, and the newest lines are among them', () => {
  const { log } = opened()
  for (let at = 0; at < 1_000; at++) log(`${at} ${'word '.repeat(1_400)}`)
  const names = readdirSync(folder).toSorted()
  expect(names).toEqual([...[1, 2, 3, 4].map((at) => `panelwright.${at}.log`), 'panelwright.log'])
  for (const name of names) expect(statSync(join(folder, name)).size).toBeLessThanOrEqual(1_000_000)
  expect(textOf('panelwright.log')).toContain('Z 999 word')
  expect(textOf('panelwright.1.log')).not.toContain('Z 999 word')
})

test('a line that never ends is cut', () => {
  const { log } = opened()
  log('word '.repeat(1_000_000))
  expect(textOf('panelwright.log').length).toBeLessThan(9_000)
})

test('where no file can be written, the line is printed all the same', () => {
  writeFileSync(join(folder, 'full'), '')
  const { log, printed } = opened(join(folder, 'full'))
  log('a line')
  expect(printed).toEqual(['a line'])
})

describe('what may never stand in a log is taken out', () => {
  test.each([
    ['the secret of an address', 'GET /?enter=Zk3s-9aQ failed', 'GET /?enter=… failed'],
    ['a pairing code', 'GET /pair?code=ABCD2345&x=1', 'GET /pair?code=…&x=1'],
    ['a cookie', 'cookie: panelwright-1=abc; b=c', 'cookie: …'],
    ['a code that was sent', 'not JSON: {"code":"314159","by":"x"}', 'not JSON: {"code":"…","by":"x"}'],
    ['contact details', '{"phone":"030 1234","email":"a@b.example"}', '{"phone":"…","email":"…"}'],
    ['an e-mail address', 'to r.okafor@mail.example now', 'to … now'],
    ['a telephone number', 'call +49 (30) 123-456 today', 'call … today'],
    ['a token', `token ${'aZ09_-'.repeat(8)} was`, 'token … was'],
  ])('%s', (_what, line, kept) => {
    expect(withoutSecrets(line)).toBe(kept)
  })

  test('places in the program, dates and short digests stay', () => {
    const line = 'at open (electron/copies/open-copy.ts:37:12) 2026-11-23, photo 0a1b2c3d4e5f: 12 of 24'
    expect(withoutSecrets(line)).toBe(line)
  })
})
