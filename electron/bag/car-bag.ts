import { Readable } from 'node:stream'
import { contactBook, type ContactBook } from '../../db/contacts.ts'
import { headOf } from '../../db/chains.ts'
import type { ReadDatabase } from '../../db/database.ts'
import { readFacts } from '../../db/journal.ts'
import { readPayload } from '../../db/journal-converters.ts'
import { carLines } from '../../db/journal-lines.ts'
import { photoRow } from '../../db/photo-rows.ts'
import { readCar, readWorkshop } from '../../db/reads.ts'
import { createJournalVerifier } from '../../db/journal-verifier.ts'
import { idsIn } from '../../domain/bring-in/ids-in.ts'
import type { CarState, Moment } from '../../domain/car.ts'
import type { CarId } from '../../domain/ids.ts'
import { ok, refuse, type Result } from '../../domain/refusal.ts'
import { carBook } from '../../domain/report/car-book.ts'
import { carFileLine, textsIn } from '../../domain/report/car-file-line.ts'
import {
  carFileName,
  carFilePeople,
  carFilePhoto,
  carFileWorkshop,
  mayHoldReports,
} from '../../domain/report/car-file-parts.ts'
import { carFileReadme } from '../../domain/report/car-file-readme.ts'
import { lineSchemas, payloadSchema, payloadSchemaName } from '../../domain/report/car-file-schemas.ts'
import {
  CAR_FILE_PATHS,
  type CarFileLine,
  type CarFilePhoto,
  type CarFileWorkshop,
} from '../../domain/report/car-file-shapes.ts'
import type { FileChoices } from '../../domain/report/file-choices.ts'
import { canonicalJson } from '../../domain/text/canonical-json.ts'
import type { WorkshopState } from '../../domain/workshop.ts'
import { BagProblem, refusalOf } from './bag-problem.ts'
import type { BagEntry, BagToWrite } from './bag-shapes.ts'
import { bookEntry, type MakeBook } from './car-book-entry.ts'
import { earlierEntries } from './earlier-journals.ts'
import { checkIsThere, missingFile, openKept, photoFiles, reportFiles, type KeptFile } from './kept-files.ts'

export interface CarBag {
  /** 'car-S-101': its folder. */
  readonly name: string
  readonly bag: BagToWrite
  /** What it will hold at least; photos are nearly all of it. */
  readonly bytes: number
  /** The book of it, alone; it is in the bag too. */
  readonly book: BagEntry
}

export interface CarBagOptions {
  readonly choices: FileChoices
  readonly now: Moment
  readonly makeBook: MakeBook
  /** A folder with room for the book until it is in the bag. */
  readonly scratch: string
}

/**
 * The file of one car, ready to be written. What it holds is settled now; it is read while it is written, so that nothing
 * but one piece of it is in memory. Refuses a car that is not there, and an original that is missing.
 */
export async function carBag(
  db: ReadDatabase,
  carId: CarId,
  options: CarBagOptions,
): Promise<Result<CarBag>> {
  const car = readCar(db, carId)
  if (car === null) return unknownCar
  const head = headOf(db.reader, carId)
  const workshop = readWorkshop(db)
  const file = carFileWorkshop({ ...options, car, workshop, head })
  const dataDir = db.dataDir ?? ''
  const contacts = contactBook(db)
  const facts = readFacts(db, carId)
  const told = carBook({ ...options, ...contacts, facts, workshop, head: head.hash })
  if (told === null) return unknownCar
  const book = bookEntry(told, options.makeBook, options.scratch)
  const people = new Set([...workshop.people.keys(), ...idsIn(facts).people])
  const named = createNamed([...people, ...workshop.parties.keys()])
  const earlier = earlierEntries(facts, { dataDir, choices: file.choices, onLine: named.note })
  const making: Making = { db, car, workshop, people, file, contacts, book, earlier, named }
  try {
    const photos = photosOf(making)
    const reports = mayHoldReports(file.choices) ? reportFiles(car, dataDir) : []
    const files = [...photoFiles(photos, dataDir), ...reports]
    for (const kept of files) await checkIsThere(kept)
    const bytes = photos.reduce((sum, photo) => sum + photo.bytes, 0)
    return ok({
      name: carFileName(car),
      bytes,
      book,
      bag: { info: infoOf(file), entries: entriesOf(making, photos, files) },
    })
  } catch (error) {
    return { ok: false, refusal: refusalOf(error) }
  }
}

interface Making {
  readonly db: ReadDatabase
  readonly car: CarState
  readonly workshop: WorkshopState
  readonly file: CarFileWorkshop
  readonly contacts: ContactBook
  readonly book: BagEntry
  /** Those of the workshop, and who worked on the car in another one before. */
  readonly people: ReadonlySet<string>
  readonly earlier: readonly BagEntry[]
  readonly named: Named
}

/** Who is named in the lines that have been written, and which schemas these follow. */
interface Named {
  readonly ids: ReadonlySet<string>
  readonly schemas: ReadonlySet<string>
  readonly note: (line: CarFileLine) => void
}

function createNamed(known: readonly string[]): Named {
  const isKnown: ReadonlySet<string> = new Set(known)
  const ids = new Set<string>()
  const schemas = new Set<string>()
  return {
    ids,
    schemas,
    note: (line) => {
      for (const id of textsIn(line, (text) => isKnown.has(text))) ids.add(id)
      const schema = payloadSchemaName(line)
      if (schema !== null) schemas.add(schema)
    },
  }
}

function infoOf({ workshop, car, head }: CarFileWorkshop): BagToWrite['info'] {
  return [
    ['Source-Organization', workshop.name],
    ['External-Description', `The file of the car ${car.name}, shell ${car.shellNumber}`],
    ['External-Identifier', car.carId],
    ['Bag-Software-Agent', 'Panelwright'],
    ['Chain-Head-SHA256', head.hash],
  ]
}

/** In this order: the people and the schemas are those of the lines that were written before them. */
function* entriesOf(
  making: Making,
  photos: readonly CarFilePhoto[],
  files: readonly KeptFile[],
): Generator<BagEntry> {
  const { file, book, earlier } = making
  yield textEntry(CAR_FILE_PATHS.readme, carFileReadme(file, earlier.length > 0))
  yield textEntry(CAR_FILE_PATHS.workshop, prettyJson(file))
  yield { path: CAR_FILE_PATHS.journal, open: () => Readable.from(journalLines(making)) }
  yield* earlier
  yield textEntry(CAR_FILE_PATHS.people, prettyJson(peopleOf(making)))
  yield { path: CAR_FILE_PATHS.photos, open: () => Readable.from(photos.map(jsonLine)) }
  yield book
  for (const kept of files) yield { path: kept.path, open: () => openKept(kept) }
  const schemas = [...lineSchemas(), ...[...making.named.schemas].toSorted().map(payloadSchema)]
  for (const { path, schema } of schemas) yield textEntry(path, prettyJson(schema))
}

function textEntry(path: string, text: string): BagEntry {
  return { path, open: () => Readable.from([Buffer.from(text, 'utf8')]) }
}

const prettyJson = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`
const jsonLine = (value: unknown): string => `${canonicalJson(value)}\n`

function peopleOf({ named, people, workshop, contacts, file }: Making) {
  return carFilePeople(named.ids, { people, parties: workshop.parties }, contacts.contactOf, file.choices)
}

/** The chain, verified as it goes out: what does not verify here would verify nowhere. @throws BagProblem */
function* journalLines({ db, car, file, named }: Making): Generator<string> {
  const verifier = createJournalVerifier()
  for (const written of carLines(db, car.id, file.head.chainNumber)) {
    const line = carFileLine(written, readPayload(written), file.choices)
    if (!verifier.take(line).ok) throw journalChanged
    named.note(line)
    yield jsonLine(line)
  }
  const end = verifier.finish()
  if (!end.ok || end.value.hash !== file.head.hash) throw journalChanged
}

function photosOf({ db, car, workshop }: Making): readonly CarFilePhoto[] {
  return [...car.attachments.values()].map((attachment) => {
    const row = photoRow(db, attachment.sha256)
    if (row === null) throw missingFile(`a photo of this car, ${attachment.sha256.slice(0, 12)}`)
    const { sha256: _, ...photo } = row
    return carFilePhoto(attachment, photo, workshop.zone)
  })
}

const journalChanged = new BagProblem({
  code: 'storage',
  message: 'The record of this car does not verify: its journal was changed or damaged.',
  next: 'Check the data folder with npm run check, and go back to a copy that is whole.',
})

const unknownCar = refuse('unknown', 'There is no such car.', 'Choose the car from the list of cars.')
