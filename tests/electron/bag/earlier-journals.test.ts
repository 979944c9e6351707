import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { cameJournalPath } from '../../../db/brought-in-files.ts'
import { broughtInFolder } from '../../../db/data-paths.ts'
import { chainHead } from '../../../db/journal.ts'
import { verifyJournal } from '../../support/verify-journal.ts'
import { ok, type Result } from '../../../domain/refusal.ts'
import { costIdSchema, visitIdSchema, type CarId } from '../../../domain/ids.ts'
import { carFileLineSchema, type CarFileLine } from '../../../domain/report/car-file-shapes.ts'
import { NOTHING_MORE, type FileChoices } from '../../../domain/report/file-choices.ts'
import type { BagProgress } from '../../../electron/bag/bag-shapes.ts'
import { carBag } from '../../../electron/bag/car-bag.ts'
import { writeBagFolder } from '../../../electron/bag/write-bag.ts'
import { bringIn, EVERYTHING } from '../../support/came-car.ts'
import { filesBelow } from '../../support/bags.ts'
import { createWorkshop, type Workshop } from '../../support/workshop.ts'

let workshop: Workshop
let carId: CarId
let folder: string
/** Of the chain in the workshop that the car came from. */
let head: string

/** A car with a price, that came from another workshop with everything in its file. */
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'earlier-'))
  workshop = createWorkshop({ keptIn: 'folder' })
  const other = createWorkshop()
  carId = other.addCar('Teasel', 'S-900')
  const costId = costIdSchema.parse('cost-teasel')
  const cost = { costId, repairId: null, kind: 'part', name: 'Sill', amount: 7_654, payer: 'owner' } as const
  other.run('setCosts', { visitId: visitIdSchema.parse('visit-s-900'), costs: [cost] }, { carId })
  head = chainHead(other.db, carId)
  bringIn(other.db, carId, workshop.db, { now: workshop.now })
  other.close()
})
afterAll(() => {
  workshop.close()
  rmSync(folder, { recursive: true })
})

async function write(name: string, choices: FileChoices): Promise<Result<BagProgress>> {
  const made = await carBag(workshop.db, carId, {
    choices,
    now: workshop.now,
    scratch: folder,
    makeBook: async (_book, to) => {
      await writeFile(to, '%PDF a book')
      return ok(null)
    },
  })
  return made.ok ? writeBagFolder(made.value.bag, join(folder, name)) : made
}

function earlierLines(name: string): readonly CarFileLine[] {
  const text = readFileSync(join(folder, name, 'data', 'earlier', `${head}.jsonl`), 'utf8')
  return text
    .trimEnd()
    .split('\n')
    .map((line) => carFileLineSchema.parse(JSON.parse(line)))
}

test.each([
  ['whole', EVERYTHING],
  ['part', NOTHING_MORE],
])('the record of the workshop before goes with the car, %s, and verifies', async (shown, choices) => {
  expect(await write(shown, choices)).toMatchObject({ ok: true })
  const lines = earlierLines(shown)
  expect(verifyJournal(lines)).toMatchObject({ ok: true, value: { hash: head } })
  expect(lines.find(({ kind }) => kind === 'costsSet')?.shown).toBe(shown)
  const journal = readFileSync(join(folder, shown, 'data', 'journal.jsonl'), 'utf8')
  const all = journal + readFileSync(join(folder, shown, 'data', 'earlier', `${head}.jsonl`), 'utf8')
  expect(all.includes('"amount":7654')).toBe(shown === 'whole')
  expect(readFileSync(join(folder, shown, 'data', 'README.txt'), 'utf8')).toContain('earlier/')
  expect(filesBelow(join(folder, shown, 'data', 'schema'))).toContain('carBroughtIn.schema.json')
})

test('a record that is gone or was changed is named, and nothing is written', async () => {
  const came = readFileSync(join(folder, 'whole', 'data', 'journal.jsonl'), 'utf8')
  const { journal } = came
    .trimEnd()
    .split('\n')
    .map((line) => carFileLineSchema.parse(JSON.parse(line)))
    .flatMap((line) => (line.kind === 'carBroughtIn' && line.shown === 'whole' ? [line.payload] : []))[0]!
  const place = cameJournalPath(broughtInFolder(workshop.dataDir!), String(journal))
  await writeFile(place, 'something else')
  const refused = await write('refused', NOTHING_MORE)
  expect(refused).toMatchObject({ ok: false, refusal: { code: 'storage' } })
  if (!refused.ok) expect(refused.refusal.message).toContain('the record that came with this car from')
})
