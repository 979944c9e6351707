import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { isClean } from '../../../db/check-finding.ts'
import { checkDatabase } from '../../../db/check.ts'
import { photosFolder } from '../../../db/data-paths.ts'
import { openPhotoReader } from '../../../db/photos/photo-store.ts'
import { takeIn } from '../../../electron/whole/take-in.ts'
import { wholeFiles } from '../../../electron/whole/whole-files.ts'
import { everyAnswer, everyInput, queriesOfRouter } from '../../support/every-view.ts'
import { createTestHost, type TestHost, type TestScreen } from '../../support/host.ts'
import {
  folderForFile,
  openBesideFirst,
  takeOutTo,
  tellEverything,
  withoutComputer,
} from '../../support/whole.ts'
import { carPayload } from '../../support/workshop.ts'

const { folder, remove } = folderForFile()
let first: TestHost
let copy: TestHost
let screens: readonly [TestScreen, TestScreen]

/** A workshop in which every kind of fact was recorded, taken out, and taken in to a folder that was not there. */
beforeAll(async () => {
  first = await createTestHost()
  await tellEverything(first)
  await takeOutTo(first.workshop.dataDir!, join(folder, 'out'))
  const taken = await takeIn(join(folder, 'out'), join(folder, 'copy'))
  if (!taken.ok) throw new Error(`${taken.refusal.message} ${taken.refusal.next}`)
  await takeOutTo(join(folder, 'copy'), join(folder, 'again'))
  const beside = await openBesideFirst(first, join(folder, 'copy'))
  copy = beside.came
  screens = beside.screens
})

afterAll(async () => {
  await first.close()
  await copy.close()
  remove()
})

describe('a workshop that was taken out and taken in again', () => {
  test('is asked for every view that there is', () => {
    expect(Object.keys(everyInput).toSorted()).toEqual(queriesOfRouter().toSorted())
  })

  test('shows the same in every view of every car, visit, repair, week and person', async () => {
    const [shown, shownByCopy] = await Promise.all([
      everyAnswer(screens[0], first.workshop.db),
      everyAnswer(screens[1], copy.workshop.db),
    ])
    const asked = Object.keys(everyInput).filter((name) =>
      [...shown.keys()].some((key) => key.startsWith(`${name} `)),
    )
    expect(asked).toEqual(Object.keys(everyInput))
    expect(withoutComputer(shownByCopy)).toEqual(withoutComputer(shown))
  })

  test('passes the check, like the first one', async () => {
    for (const { workshop } of [first, copy]) {
      const findings = await checkDatabase(workshop.db, openPhotoReader(photosFolder(workshop.dataDir!)))
      expect(isClean(findings), JSON.stringify(findings)).toBe(true)
    }
  })

  test('has the same journal, byte for byte', () => {
    for (const sql of [
      'SELECT * FROM journal ORDER BY number',
      'SELECT * FROM payload ORDER BY number',
      'SELECT * FROM kept_plan_car ORDER BY plan_id, car_id',
      `SELECT seq FROM sqlite_sequence WHERE name = 'journal'`,
    ])
      expect(rows(copy, sql)).toEqual(rows(first, sql))
  })

  test('has every photo and issued report with the same bytes', () => {
    const files = (host: TestHost) =>
      wholeFiles(host.workshop.db.reader, host.workshop.dataDir!).map(({ path, place, sha256 }) => {
        expect(createHash('sha256').update(readFileSync(place)).digest('hex')).toBe(sha256)
        return path
      })
    expect(files(copy)).toEqual(files(first))
    expect(files(copy)).toHaveLength(7)
  })

  test('is taken out again as the same bag', () => {
    const manifest = (name: string) => readFileSync(join(folder, name, 'manifest-sha256.txt'), 'utf8')
    expect(manifest('again')).toBe(manifest('out'))
  })

  test('knows the commands that were answered before: one of them sent again records nothing', async () => {
    const [sent] = rows(first, 'SELECT command_id FROM journal ORDER BY number') as { command_id: string }[]
    const before = rows(copy, 'SELECT count(*) FROM journal')
    const again = await screens[1].send('addCar', carPayload('Teasel', 'S-900'), { id: sent!.command_id })
    expect(again).toMatchObject({ ok: false, refusal: { code: 'same-id-other-content' } })
    expect(rows(copy, 'SELECT count(*) FROM journal')).toEqual(before)
  })
})

const rows = ({ workshop }: TestHost, sql: string): readonly unknown[] =>
  workshop.db.reader.sqlite.prepare(sql).all()
