import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'
import { checkJournal } from '../../db/check-journal.ts'
import type { Database } from '../../db/database.ts'
import { openWriter } from '../../db/handle.ts'
import { readPayload } from '../../db/journal-converters.ts'
import type { JournalRow } from '../../db/journal-hash.ts'
import { migrate, readMigrations } from '../../db/migrate.ts'
import { readAllCars, readWorkshop } from '../../db/reads.ts'
import { rebuildDerived } from '../../db/rebuild-derived.ts'
import { journal, payload } from '../../db/schema.ts'
import { createStateCache } from '../../db/state-cache.ts'
import { factSchemas } from '../../domain/facts.ts'

/** Versions of facts whose journals lie in people's folders, with the number of the migration they were first kept by. */
const released = [
  { version: 1, migration: 1 },
  { version: 2, migration: 2 },
  { version: 3, migration: 5 },
]

interface Line extends JournalRow {
  readonly json: string
  readonly salt: string
}

function readFixture(version: number): readonly Line[] {
  const path = fileURLToPath(new URL(`../fixtures/journal-v${version}.ndjson`, import.meta.url))
  const lines = readFileSync(path, 'utf8').trimEnd().split('\n')
  return lines.map((line) => JSON.parse(line) as Line)
}

/** A database as the program of that version left it, brought up to date by this one. */
function openFixture({ version, migration }: (typeof released)[number]): Database {
  const writer = openWriter(':memory:')
  migrate(writer, readMigrations().slice(0, migration))
  for (const { json, salt, ...line } of readFixture(version)) {
    writer.orm.insert(journal).values(line).run()
    writer.orm
      .insert(payload)
      .values({ number: line.number, json, salt: Buffer.from(salt, 'hex') })
      .run()
  }
  migrate(writer)
  const close = () => writer.sqlite.close()
  const db = {
    dataDir: null,
    reader: writer,
    writer,
    codeKey: Buffer.alloc(32),
    codeCost: 2,
    cache: createStateCache(),
    noteEnd: () => {},
    close,
  }
  rebuildDerived(db)
  return db
}

describe.each(released)('a journal of version $version', (release) => {
  test('is read fact by fact in the shapes of today', () => {
    const kinds = new Set<string>()
    for (const line of readFixture(release.version)) {
      expect(line.version).toBe(release.version)
      const fact = readPayload(line)
      kinds.add(line.kind)
      expect(factSchemas[fact.kind].safeParse(fact.payload)).toMatchObject({ success: true })
    }
    expect(kinds.size).toBeGreaterThanOrEqual(66)
  })

  test('has the hashes that it was written with', () => {
    const db = openFixture(release)
    // The fixture holds the journal alone: what else was kept beside it is not there.
    const findings = checkJournal(db.reader).filter(
      ({ what }) => !what.startsWith('The answer to the command'),
    )
    expect(findings).toEqual([])
    db.close()
  })

  test('tells the same car and workshop as ever', () => {
    const db = openFixture(release)
    const [car, ...others] = readAllCars(db).filter(({ broughtIn }) => broughtIn === null)
    expect(others).toEqual([])
    expect(car).toMatchObject({ name: 'Larkspur Four', shellNumber: 'S-101', currentVisit: 'visit-warranty' })
    expect([...(car?.visits.values() ?? [])].map(({ status }) => status)).toEqual(['delivered', 'in work'])
    expect(
      [...(car?.repairs.values() ?? [])].map(({ plan, retired }) => [plan.name, retired !== null]),
    ).toEqual([
      ['Spring hanger', true],
      ['Boot floor', false],
      ['Rear valance', false],
      ['Left sill', false],
      ['Patch one', true],
      ['Patch two', true],
    ])
    expect(car?.notes.map(({ text }) => text)).toEqual(['Keys are in the office. ✂️\nSecond line.'])
    expect([...(car?.entries.values() ?? [])].filter(({ gone }) => gone === null)).toHaveLength(3)
    const workshop = readWorkshop(db)
    expect([...workshop.people.keys()]).toEqual(['person-manager', 'person-welder', 'person-painter'])
    expect(workshop.settings.gapNominalMm).toBe(4.5)
    db.close()
  })
})

describe('a payload that this program does not know', () => {
  test('of an unknown kind or a newer version is a defect that says which', () => {
    expect(() => readPayload({ kind: 'teleported', version: 1, json: '{}' })).toThrow(
      /unknown kind 'teleported'/,
    )
    expect(() => readPayload({ kind: 'noted', version: 99, json: '{}' })).toThrow(
      /'noted' of unknown version 99/,
    )
  })
})
