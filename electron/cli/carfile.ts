import { join, resolve } from 'node:path'
import { photosFolder } from '../../db/data-paths.ts'
import type { ReadDatabase } from '../../db/database.ts'
import { latestTime } from '../../db/host-clock.ts'
import { openDatabase } from '../../db/open-database.ts'
import { eachCar } from '../../db/reads.ts'
import type { CarState } from '../../domain/car.ts'
import type { Refusal, Result } from '../../domain/refusal.ts'
import { carFileName } from '../../domain/report/car-file-parts.ts'
import type { FileChoices } from '../../domain/report/file-choices.ts'
import { bytesWords, plural } from '../../domain/text/words.ts'
import type { BagProgress } from '../bag/bag-shapes.ts'
import { carBag } from '../bag/car-bag.ts'
import { writeBagFolder } from '../bag/write-bag.ts'
import { writeBook, type WriteBookOptions } from '../print/write-book.ts'
import { dataFolder, needed, readFlags, runCommand, stopSignal, UsageProblem } from './command-line.ts'
import { makeOutFolder } from './write-out.ts'

const usage = `npm run carfile -- [--data DIR] [--car SHELL] --out DIR [--contacts] [--prices] [--hours]
  --data DIR   the data folder; also while Panelwright is running on it
  --car SHELL  the shell number of one car; all cars without it
  --out DIR    where a folder for each car goes (made when it is not there)
  --contacts   also the names, addresses and numbers of owners and other payers
  --prices     also prices and rates
  --hours      also the hours that each person worked`

const BETWEEN_WORDS = 200

await runCommand(usage, carfile)

interface Run {
  readonly db: ReadDatabase
  readonly dataDir: string
  readonly out: string
  readonly choices: FileChoices
  readonly signal: AbortSignal
}

/** Writes the file of one car or of all as a bag in a folder each, or nothing of a car. Changes nothing in the data folder. */
async function carfile(argv: readonly string[]): Promise<number> {
  const flags = readFlags(argv, ['data', 'car', 'out'], ['contacts', 'prices', 'hours'])
  const out = resolve(needed(flags.out, '--out'))
  const { contacts = false, prices = false, hours = false } = flags
  const dataDir = dataFolder(flags.data)
  const db = openDatabase(dataDir, { readonly: true })
  try {
    const cars = carsAsked(db, flags.car)
    await makeOutFolder(out)
    return await writeAll(
      { db, dataDir, out, choices: { contacts, prices, hours }, signal: stopSignal() },
      cars,
    )
  } finally {
    db.close()
  }
}

/** All that is needed of a car before its file is written. */
type CarAsked = Pick<CarState, 'id' | 'name' | 'shellNumber'>

/** @throws UsageProblem for a shell number that no car has */
function carsAsked(db: ReadDatabase, shellNumber: string | undefined): readonly CarAsked[] {
  const cars = Array.from(eachCar(db), ({ id, name, shellNumber: shell }) => ({
    id,
    name,
    shellNumber: shell,
  }))
  if (shellNumber === undefined) return cars
  const asked = cars.filter((car) => car.shellNumber === shellNumber)
  if (asked.length > 0) return asked
  const known = cars.map((car) => car.shellNumber).join(', ')
  throw new UsageProblem(
    `There is no car with the shell number '${shellNumber}'. The cars here: ${known || 'none'}.`,
  )
}

async function writeAll(run: Run, cars: readonly CarAsked[]): Promise<number> {
  let written = 0
  for (const [index, car] of cars.entries()) {
    if (run.signal.aborted) break
    const what = `${car.name}, shell ${car.shellNumber}`
    const to = join(run.out, folderName(car, cars.slice(0, index)))
    const result = await writeOne(run, car, to)
    if (!result.ok) {
      console.error(`${what}: ${words(result.refusal)}`)
      continue
    }
    written += 1
    console.log(`${what}: ${plural('file', result.value.files)}, ${bytesWords(result.value.bytes)}, in ${to}`)
  }
  console.log(`${plural('car', written)} of ${cars.length} written to ${run.out}.`)
  return written === cars.length ? 0 : 1
}

async function writeOne(run: Run, car: CarAsked, to: string): Promise<Result<BagProgress>> {
  const { db, dataDir, out, choices, signal } = run
  const bookOptions: WriteBookOptions = {
    signal,
    onProgress: ({ photos, of }) => sayOften(photos, `${photos} of ${plural('photo', of)} set in the book`),
  }
  const made = await carBag(db, car.id, {
    choices,
    now: latestTime(db, Date.now()),
    scratch: out,
    makeBook: (book, path) => writeBook(book, path, photosFolder(dataDir), bookOptions),
  })
  if (!made.ok) return made
  const onProgress = ({ files, bytes }: BagProgress) =>
    sayOften(
      files,
      `${plural('file', files)} written, ${bytesWords(bytes)} of ${bytesWords(made.value.bytes)}`,
    )
  return writeBagFolder(made.value.bag, to, { signal, onProgress })
}

/** On standard error, for a car that takes minutes. */
function sayOften(count: number, said: string): void {
  if (count % BETWEEN_WORDS === 0) console.error(`  ${said}`)
}

/** Shell numbers that differ only in what a name of a folder cannot hold get a number behind them. */
function folderName(car: CarAsked, before: readonly CarAsked[]): string {
  const name = carFileName(car)
  const same = before.filter((other) => carFileName(other).toLowerCase() === name.toLowerCase()).length
  return same === 0 ? name : `${name}-${same + 1}`
}

function words({ message, next }: Refusal): string {
  return `${message} ${next}`
}
