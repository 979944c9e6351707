import { readFileSync } from 'node:fs'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { personIdSchema } from '../../../domain/ids.ts'
import { carColumns } from '../../../domain/import/import-cars.ts'
import { hoursColumns } from '../../../domain/import/import-hours.ts'
import { repairColumns } from '../../../domain/import/import-repairs.ts'
import type { ImportKind } from '../../../domain/import/plan-import.ts'
import { setUpFellLane } from '../../support/fell-lane.ts'
import { createTestHost, type TestHost, type TestScreen } from '../../support/host.ts'

let host: TestHost
let screen: TestScreen
beforeAll(async () => {
  host = await createTestHost({ setUp: false })
  screen = await setUpFellLane(host)
  for (const name of ['Iris Vane', 'Noel Harrow'])
    await screen.run('addPerson', {
      personId: personIdSchema.parse(`person-${name.slice(0, 4).toLowerCase()}`),
      roles: ['technician'],
      skills: [],
      week: null,
      absences: [],
      contact: { name, phone: '', email: '', address: '' },
      code: '8182',
    })
})
afterAll(() => host.close())

const sample = (kind: ImportKind): string =>
  readFileSync(new URL(`../../../renderer/cars/samples/${kind}.csv`, import.meta.url), 'utf8')

/** In the order in which a workshop would bring them in: each needs the one before. */
const samples = [
  { kind: 'cars', columns: carColumns, lines: 3 },
  { kind: 'repairs', columns: repairColumns, lines: 4 },
  { kind: 'hours', columns: hoursColumns, lines: 3 },
] as const

test('every line of the example files comes in by the real door of an import', async () => {
  for (const { kind, columns, lines } of samples) {
    const file = { kind, text: sample(kind), importId: crypto.randomUUID() }
    const preview = await screen.client.importPreview.mutate(file)
    expect(preview.ok && preview.lines.flatMap(({ problems }) => problems)).toEqual([])
    expect(preview).toMatchObject({ ok: true, ready: true })
    expect(await screen.client.importCommit.mutate(file)).toMatchObject({ ok: true, lines })
    // Nothing that a file may hold is missing from its example.
    const names = Object.values(columns).map(({ name }) => name)
    expect(file.text.split('\n')[0]?.split(',')).toEqual(names)
  }
  const { cars } = await screen.client.cars.query()
  expect(Object.fromEntries(cars.map(({ shellNumber, repairs }) => [shellNumber, repairs]))).toEqual({
    'S-201': 3,
    'S-202': 1,
    'S-203': 0,
  })
})
