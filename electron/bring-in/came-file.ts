import { Buffer } from 'node:buffer'
import { newerFile, readCameChain, type CameChain } from '../../db/came-chain.ts'
import { FACT_VERSION } from '../../domain/facts.ts'
import { takeOver, type TakenOver } from '../../domain/bring-in/take-over.ts'
import { carFromFacts } from '../../domain/state/car-state.ts'
import type { Contact } from '../../domain/commands/decide.ts'
import { contactSchema } from '../../domain/commands/command-shapes.ts'
import { parseJson } from '../../domain/text/parse-json.ts'
import { nameSchema } from '../../domain/text/safe-text.ts'
import { ok, refuse, type Result } from '../../domain/refusal.ts'
import {
  CAR_FILE_FORMAT,
  CAR_FILE_PATHS,
  CAR_FILE_VERSION,
  carFilePeopleSchema,
  carFileWorkshopSchema,
  type CarFilePeople,
  type CarFileWorkshop,
} from '../../domain/report/car-file-shapes.ts'
import type { OpenBag } from '../bag/bag-shapes.ts'

/** Far above the file of a car with 100,000 facts. */
const MOST_JOURNAL_BYTES = 256 * 1024 ** 2
const MOST_JSON_BYTES = 16 * 1024 ** 2

/** A car's file that was read whole, but for its photos. */
export interface CarFile {
  readonly bag: OpenBag
  readonly file: CarFileWorkshop
  /** The journal as it came. */
  readonly journal: Uint8Array
  readonly chain: CameChain
  readonly taken: TakenOver
  readonly contacts: ReadonlyMap<string, Contact>
  /** Photos that stand on the car: where each lies in the bag, by its digest. */
  readonly photos: ReadonlyMap<string, string>
}

/** Reads what a verified bag says of its car, and verifies the chain. */
export async function readCarFile(bag: OpenBag): Promise<Result<CarFile>> {
  const file = await readWorkshop(bag)
  if (!file.ok) return file
  const people = await readJson(bag, CAR_FILE_PATHS.people)
  const parsed = carFilePeopleSchema.safeParse(people)
  const journal = await bag.readText(CAR_FILE_PATHS.journal, MOST_JOURNAL_BYTES)
  if (!journal.ok) return journal
  const chain = readCameChain(journal.value, file.value.factVersion)
  if (!chain.ok) return chain
  if (!parsed.success || chain.value.hash !== file.value.head.hash) return notTogether
  const taken = takeOver(chain.value.facts)
  const photos = photosIn(bag, taken)
  if (photos === null) return photoMissing
  return ok({
    bag,
    file: file.value,
    journal: Buffer.from(journal.value, 'utf8'),
    chain: chain.value,
    taken,
    contacts: contactsIn(parsed.data),
    photos,
  })
}

async function readWorkshop(bag: OpenBag): Promise<Result<CarFileWorkshop>> {
  if (!bag.files.has(CAR_FILE_PATHS.workshop)) return noCarFile
  const said = (await readJson(bag, CAR_FILE_PATHS.workshop)) as Said
  if (typeof said !== 'object' || said?.format !== CAR_FILE_FORMAT) return noCarFile
  const { version, factVersion } = said
  if (isAbove(version, CAR_FILE_VERSION) || isAbove(factVersion, FACT_VERSION)) return newerFile
  const parsed = carFileWorkshopSchema.safeParse(said)
  return parsed.success ? ok(parsed.data) : notTogether
}

type Said = { readonly format?: unknown; readonly version?: unknown; readonly factVersion?: unknown } | null

const isAbove = (version: unknown, known: number): boolean => typeof version === 'number' && version > known

/** Null for what is not there or is no JSON, which has no shape that is looked for. */
async function readJson(bag: OpenBag, path: string): Promise<unknown> {
  if (!bag.files.has(path)) return null
  const text = await bag.readText(path, MOST_JSON_BYTES)
  return text.ok ? parseJson(text.value) : null
}

/** Names that no contact may have are left out: they are called by their part in the car. */
function contactsIn({ people, parties }: CarFilePeople): ReadonlyMap<string, Contact> {
  const said = [...people.map((person) => ({ ...person, contact: null })), ...parties]
  return new Map(
    said.flatMap(({ id, name, contact }): [string, Contact][] => {
      const whole = contactSchema.safeParse({ name, phone: '', email: '', address: '', ...contact })
      if (whole.success) return [[id, whole.data]]
      const named = nameSchema.safeParse(name)
      return named.success ? [[id, { name: named.data, phone: '', email: '', address: '' }]] : []
    }),
  )
}

/** Null when one is not in the bag. */
function photosIn({ files }: OpenBag, { facts }: TakenOver): ReadonlyMap<string, string> | null {
  const places = new Map([...files].map(([path, { sha256 }]) => [sha256, path]))
  const attached = [...(carFromFacts(facts)?.attachments.values() ?? [])]
  const photos = new Map<string, string>()
  for (const { sha256 } of attached) {
    const place = places.get(sha256)
    if (place === undefined) return null
    photos.set(sha256, place)
  }
  return photos
}

const AGAIN = 'Ask the other workshop to make the car’s file again. Nothing was brought in.'

const noCarFile = refuse(
  'bad-input',
  'This is a bag, but not the file of a car.',
  'Choose the file that the other workshop took out with ‘The car’s file’.',
)
const notTogether = refuse('bad-input', 'The parts of this file do not belong together.', AGAIN)
const photoMissing = refuse('photo', 'A photo that the car’s record names is not in this file.', AGAIN)
