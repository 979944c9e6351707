import { open } from 'node:fs/promises'
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { isReportIntact, reportPath, storeReport } from '../../db/report-files.ts'

let folder: string

beforeEach(() => {
  folder = join(mkdtempSync(join(tmpdir(), 'reports-')), 'reports')
})

afterEach(() => {
  rmSync(join(folder, '..'), { recursive: true })
})

// SHA-256 of 'abc', FIPS 180-4 example.
const ABC = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'

test('a report is kept under the SHA-256 of its bytes, and nothing else is left in the folder', async () => {
  expect(await storeReport(folder, 'pdf', Buffer.from('abc'))).toBe(ABC)
  expect(await storeReport(folder, 'pdf', Buffer.from('abc'))).toBe(ABC)
  expect(readFileSync(reportPath(folder, 'pdf', ABC), 'utf8')).toBe('abc')
  expect(readdirSync(folder)).toEqual([`${ABC}.pdf`])
})

test('a report that was changed or is gone is not intact', async () => {
  await storeReport(folder, 'pdf', Buffer.from('abc'))
  expect(await isReportIntact(folder, 'pdf', ABC)).toBe(true)
  writeFileSync(reportPath(folder, 'pdf', ABC), 'abd')
  expect(await isReportIntact(folder, 'pdf', ABC)).toBe(false)
  rmSync(reportPath(folder, 'pdf', ABC))
  expect(await isReportIntact(folder, 'pdf', ABC)).toBe(false)
})

test('a folder that cannot be written to is told', async () => {
  const file = join(folder, '..', 'file')
  writeFileSync(file, '')
  await expect(storeReport(join(file, 'reports'), 'pdf', Buffer.from('abc'))).rejects.toThrow(/ENOTDIR/)
})

test('a disk that is full half-way leaves nothing behind', async () => {
  const full = Object.assign(new Error('ENOSPC, write'), { code: 'ENOSPC', syscall: 'write' })
  const createFile = async (path: string) => {
    const file = await open(path, 'wx')
    return Object.assign(file, {
      writeFile: async (bytes: Uint8Array) => {
        await file.write(bytes.subarray(0, 1))
        throw full
      },
    })
  }
  const stored = storeReport(folder, 'html', Buffer.from('abc'), { createFile })
  await expect(stored).rejects.toThrow('ENOSPC')
  expect(readdirSync(folder)).toEqual([])
})
