import { existsSync, mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { readCopyRecord } from '../../../db/copy-records.ts'
import { readSetting } from '../../../db/settings.ts'
import { runScript } from '../../support/run-script.ts'
import { folderForFile, namesIn } from '../../support/whole.ts'
import { createWorkshop, type Workshop } from '../../support/workshop.ts'

const { folder, remove } = folderForFile()
const disk = join(folder, 'disk')
let workshop: Workshop
beforeAll(() => {
  workshop = createWorkshop({ keptIn: 'folder' })
  workshop.addCar()
})
afterAll(() => {
  workshop.close()
  remove()
})

const backup = (...args: readonly string[]) => runScript('electron/cli/backup.ts', ...args)
const restore = (...args: readonly string[]) => runScript('electron/cli/restore.ts', ...args)

test('a workshop is copied beside its running host, which knows of it, and restored, and passes the check', async () => {
  const made = await backup('--data', workshop.dataDir!, '--out', disk)
  expect(made.out).toMatch(/Copied and verified: \d+ lines of the journal, \d+ kB in all\.\n0 files written/)
  expect(made.out).toContain('on the same disk as the workshop itself')
  expect(made.code).toBe(0)
  const { good } = readCopyRecord(workshop.db)
  expect(good).toMatchObject({ folder: disk, number: Number(readSetting(workshop.db, 'copiedTo')) })

  const dataDir = join(folder, 'restored')
  const restored = await restore('--from', disk, '--data', dataDir)
  expect(restored.out).toMatch(
    /Brookside Metalwork is in .* as it was copied on .*: \d+ lines of the journal, 0 photos and reports; all is well.*chooses a new code/s,
  )
  expect(restored.code).toBe(0)
  expect(await runScript('electron/cli/check.ts', '--data', dataDir)).toMatchObject({
    code: 0,
    out: expect.stringContaining(`All is well in ${dataDir}.`),
  })
  const twice = await restore('--from', disk, '--data', dataDir, '--copy', good!.stamp)
  expect(twice).toMatchObject({ code: 1, out: expect.stringContaining('There is a workshop in') })
})

test('what cannot be copied or restored is said, and nothing is made', async () => {
  const missing = join(folder, 'missing')
  mkdirSync(join(folder, 'empty'))
  writeFileSync(join(folder, 'a file'), '')
  const [noWorkshop, noFolder, noCopies, noData] = await Promise.all([
    backup('--data', missing, '--out', join(folder, 'unused')),
    backup('--data', workshop.dataDir!, '--out', join(folder, 'a file')),
    restore('--from', join(folder, 'empty'), '--data', join(folder, 'new')),
    restore('--from', missing),
  ])
  expect(noWorkshop).toMatchObject({ code: 2, out: expect.stringContaining('There is no workshop in') })
  expect(noFolder).toMatchObject({ code: 1, out: expect.stringContaining('Choose another folder') })
  expect(noCopies).toMatchObject({ code: 2, out: expect.stringContaining('There are no copies in') })
  expect(noData).toMatchObject({ code: 2, out: expect.stringContaining('npm run restore -- --from DIR') })
  expect([missing, join(folder, 'new'), join(folder, 'unused')].map(existsSync)).toEqual([
    false,
    false,
    false,
  ])
  expect(namesIn(folder).filter((name) => name.includes('.part'))).toEqual([])
})
