import { readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { Ajv2020 } from 'ajv/dist/2020.js'
import Sqlite from 'better-sqlite3'
import { getTableName, is } from 'drizzle-orm'
import { SQLiteTable } from 'drizzle-orm/sqlite-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { reportPath } from '../../../db/report-files.ts'
import { originalPath } from '../../../db/photos/photo-files.ts'
import { databasePath, photosFolder, reportsFolder } from '../../../db/data-paths.ts'
import * as schema from '../../../db/schema.ts'
import { FACT_VERSION } from '../../../domain/facts.ts'
import { WHOLE_PARTS } from '../../../domain/whole/whole-shapes.ts'
import { writeBagFolder } from '../../../electron/bag/write-bag.ts'
import { takeIn } from '../../../electron/whole/take-in.ts'
import { openWholeWorkshop } from '../../../electron/whole/whole-bag.ts'
import { describeBagTools, filesBelow, runTool } from '../../support/bags.ts'
import { createTestHost, type TestHost } from '../../support/host.ts'
import { folderForFile, namesIn, takeOutTo, tellEverything } from '../../support/whole.ts'
import { tamper } from '../../db/tamper.ts'

const { folder, remove } = folderForFile()
const out = join(folder, 'out')
let host: TestHost
const dataDir = () => host.workshop.dataDir!

beforeAll(async () => {
  host = await createTestHost()
  await tellEverything(host)
  await takeOutTo(dataDir(), out)
})
afterAll(async () => {
  await host.close()
  remove()
})

const lines = (path: string): readonly Record<string, unknown>[] =>
  readFileSync(join(out, path), 'utf8')
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => JSON.parse(line) as Record<string, unknown>)

const schemaOf = (name: string): Readonly<Record<string, unknown>> =>
  JSON.parse(readFileSync(join(out, `data/schema/${name}.schema.json`), 'utf8')) as Record<string, unknown>

test('every table is taken out, or is made anew, or stays with its computer', () => {
  const taken = ['journal', 'payload', 'command_answer', 'contact', 'kept_plan', 'photo']
  const alsoTaken = ['report_draft', 'prepared_report', 'setting']
  const madeAnew = [
    'car',
    'booking',
    'time_entry',
    'attachment',
    'report',
    'finished_repair',
    'kept_plan_car',
    'searched',
  ]
  const alsoMadeAnew = ['planned_amount', 'variance_sum', 'variance_visit', 'variance_day']
  const stays = ['device', 'session', 'code', 'code_lock']
  const tables = Object.values(schema).filter((each) => is(each, SQLiteTable))
  expect(tables.map((table) => getTableName(table)).toSorted()).toEqual(
    [...taken, ...alsoTaken, ...madeAnew, ...alsoMadeAnew, ...stays].toSorted(),
  )
})

describe('the bag of a whole workshop', () => {
  test('has a line of every kind of record, each of them as its JSON Schema says', () => {
    for (const part of WHOLE_PARTS) {
      const records = lines(`data/${part}.jsonl`)
      expect(records.length, part).toBeGreaterThan(0)
      const validate = new Ajv2020({ strict: false, validateFormats: false }).compile(schemaOf(part))
      for (const record of records) expect(validate(record), JSON.stringify(validate.errors)).toBe(true)
    }
  })

  test('has every payload as the JSON Schema of its kind says', () => {
    const kinds = schemaOf('facts').$defs as Readonly<Record<string, object>>
    const byKind = Map.groupBy(lines('data/journal.jsonl'), ({ kind }) => String(kind))
    for (const [kind, facts] of byKind) {
      const validate = new Ajv2020({ strict: false, validateFormats: false }).compile(kinds[kind]!)
      for (const { version, payload } of facts) {
        expect(version).toBe(FACT_VERSION)
        expect(validate(payload), `${kind}: ${JSON.stringify(validate.errors)}`).toBe(true)
      }
    }
  })

  test('holds no code, no key and no device, and says so', () => {
    const all = filesBelow(join(out, 'data')).filter((path) => /\.(jsonl|json|txt)$/.test(path))
    const text = all.map((path) => readFileSync(join(out, 'data', path), 'utf8')).join('\n')
    const rows = (sql: string) =>
      host.workshop.db.reader.sqlite.prepare(sql).pluck().all() as readonly string[]
    const secrets = [
      ...rows('SELECT token_hash FROM device'),
      ...rows('SELECT lower(hex(hash)) FROM code'),
      ...rows('SELECT lower(hex(salt)) FROM code'),
      Buffer.from(host.workshop.db.codeKey).toString('hex'),
    ]
    expect(secrets.length).toBeGreaterThan(4)
    for (const secret of secrets) expect(text.includes(secret)).toBe(false)
    expect(readFileSync(join(out, 'data/README.txt'), 'utf8')).toContain('Codes do not leave the computer')
  })

  test('does not open another computer to its network', () => {
    expect(lines('data/settings.jsonl')).toEqual([{ name: 'demo', value: '2026-11-26' }])
  })

  test('holds the workshop as it stood when it was opened, whatever is recorded while it is written', async () => {
    const whole = openWholeWorkshop(dataDir(), host.workshop.now)
    host.workshop.addCar('Pellin 3', 'S-777')
    const written = await writeBagFolder(whole.bag, join(folder, 'meanwhile'))
    whole.close()
    expect(written.ok).toBe(true)
    expect(readFileSync(join(folder, 'meanwhile/data/journal.jsonl'), 'utf8')).not.toContain('S-777')
    expect((await takeIn(join(folder, 'meanwhile'), join(folder, 'meanwhile-in'))).ok).toBe(true)
  })
})

describeBagTools('by a tool that is not ours', () => {
  test('every digest of the bag is confirmed', () => {
    const said = runTool('sha256sum', ['-c', '--strict', 'manifest-sha256.txt'], out)
    expect(said.trim().split('\n')).toHaveLength(filesBelow(join(out, 'data')).length)
    runTool('sha256sum', ['-c', '--strict', 'tagmanifest-sha256.txt'], out)
  })
})

describe('nothing is written', () => {
  const refused = async (from = dataDir()): Promise<string> => {
    const whole = openWholeWorkshop(from, host.workshop.now)
    const written = await writeBagFolder(whole.bag, join(folder, 'refused'))
    whole.close()
    expect(namesIn(folder).filter((name) => name.includes('refused'))).toEqual([])
    return written.ok ? 'It was written.' : `${written.refusal.message} ${written.refusal.next}`
  }

  /** Changes a file for one test. */
  const withFile = async (
    path: string,
    change: (bytes: Buffer) => Buffer | null,
    run: () => Promise<void>,
  ) => {
    const before = readFileSync(path)
    const after = change(Buffer.from(before))
    if (after === null) rmSync(path)
    else writeFileSync(path, after)
    await run()
    writeFileSync(path, before)
  }
  const flipped = (bytes: Buffer) => {
    bytes[bytes.length - 5]! ^= 1
    return bytes
  }
  const photo = () => {
    const attached = `SELECT sha256 FROM attachment WHERE car_id = 'car-s-101' LIMIT 1`
    const sha256 = host.workshop.db.reader.sqlite.prepare(attached).pluck().get() as string
    return originalPath(photosFolder(dataDir()), sha256)
  }
  const report = () => {
    const issued = host.workshop.db.reader.sqlite.prepare(`SELECT sha256 FROM report LIMIT 1`).pluck().get()
    return reportPath(reportsFolder(dataDir()), 'pdf', issued as string)
  }

  test('when an original is gone: its car is named, and what to do', async () => {
    await withFile(
      photo(),
      () => null,
      async () =>
        expect(await refused()).toMatch(/^The photo \w{12} \(on .*S-101.*\) is gone. Run the check/),
    )
  })

  test('when a byte of an original was changed', async () => {
    await withFile(photo(), flipped, async () => expect(await refused()).toContain('its bytes were changed'))
  })

  test('when an issued report was changed', async () => {
    await withFile(report(), flipped, async () =>
      expect(await refused()).toMatch(/^An issued report of 2026-W48 is not what was kept/),
    )
  })

  test('when a payload or a kept plan was changed', async () => {
    const copy = join(folder, 'tampered')
    expect((await takeIn(out, copy)).ok).toBe(true)
    const sqlite = new Sqlite(databasePath(copy))
    sqlite.exec(`UPDATE kept_plan SET sha256 = '${'0'.repeat(64)}' WHERE why = 'moved'`)
    sqlite.close()
    expect(await refused(copy)).toContain('The kept plan plan-moved is not what was recorded.')
    tamper(copy, (db) => db.exec(`UPDATE payload SET json = replace(json, 'Larkspur Four', 'Larkspur 5')`))
    expect(await refused(copy)).toMatch(/^Line \d+ of the journal is not what was recorded. Run the check/)
  })
})
