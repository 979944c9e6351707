import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { runScript } from '../../support/run-script.ts'
import { folderForFile, namesIn } from '../../support/whole.ts'
import { createWorkshop, type Workshop } from '../../support/workshop.ts'

const { folder, remove } = folderForFile()
let workshop: Workshop
beforeAll(() => {
  workshop = createWorkshop({ keptIn: 'folder' })
  workshop.addCar()
})
afterAll(() => {
  workshop.close()
  remove()
})

const takeout = (...args: readonly string[]) => runScript('electron/cli/take-out.ts', ...args)
const takein = (...args: readonly string[]) => runScript('electron/cli/take-in.ts', ...args)

test('the whole workshop is taken out beside its running host, and taken in, and passes the check', async () => {
  const taken = await takeout('--data', workshop.dataDir!, '--out', join(folder, 'out'))
  expect(taken.out).toMatch(/^Brookside Metalwork: \d+ files, \d+ kB, in .*personal data/s)
  expect(taken.code).toBe(0)
  const [name] = namesIn(join(folder, 'out'))
  expect(name).toMatch(/^panelwright-brookside-metalwork-\d{4}-\d\d-\d\d$/)

  const again = await takeout('--data', workshop.dataDir!, '--out', join(folder, 'out'))
  expect(again).toMatchObject({ code: 1, out: expect.stringContaining('is there already') })

  const dataDir = join(folder, 'copy')
  const brought = await takein('--from', join(folder, 'out', name!), '--data', dataDir)
  expect(brought.out).toMatch(/is in .*: \d+ facts, 0 photos and reports; all is well.*chooses a new code/s)
  expect(brought.code).toBe(0)
  expect(await runScript('electron/cli/check.ts', '--data', dataDir)).toMatchObject({
    code: 0,
    out: expect.stringContaining(`All is well in ${dataDir}.`),
  })
  const twice = await takein('--from', join(folder, 'out', name!), '--data', dataDir)
  expect(twice).toMatchObject({ code: 1, out: expect.stringContaining('There is a workshop in') })
})

test('what cannot be taken out or in is said, and nothing is made', async () => {
  const missing = join(folder, 'missing')
  const [noWorkshop, noBag, noData] = await Promise.all([
    takeout('--data', missing, '--out', folder),
    takein('--from', missing, '--data', join(folder, 'new')),
    takein('--from', missing),
  ])
  expect(noWorkshop).toMatchObject({ code: 2, out: expect.stringContaining('There is no workshop in') })
  expect(noBag).toMatchObject({ code: 1, out: expect.stringContaining('Check its name') })
  expect(noData).toMatchObject({ code: 2, out: expect.stringContaining('npm run takein -- --from PATH') })
  expect([existsSync(missing), existsSync(join(folder, 'new'))]).toEqual([false, false])
})
