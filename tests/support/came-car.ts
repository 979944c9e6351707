import { mkdirSync, writeFileSync } from 'node:fs'
import { createHash } from 'node:crypto'
import { dirname } from 'node:path'
import { bringInCar, type CarToBringIn } from '../../db/bring-in-car.ts'
import { cameJournalPath } from '../../db/brought-in-files.ts'
import { readCameChain } from '../../db/came-chain.ts'
import { broughtInFolder } from '../../db/data-paths.ts'
import type { Database } from '../../db/database.ts'
import type { CommandAnswer } from '../../db/execute-command.ts'
import { readPayload } from '../../db/journal-converters.ts'
import { carLines } from '../../db/journal-lines.ts'
import { takeOver } from '../../domain/bring-in/take-over.ts'
import { FACT_VERSION } from '../../domain/facts.ts'
import { commandIdSchema, type CarId } from '../../domain/ids.ts'
import { carFileLine } from '../../domain/report/car-file-line.ts'
import type { FileChoices } from '../../domain/report/file-choices.ts'
import { desk, manager } from './workshop.ts'

export const EVERYTHING: FileChoices = { contacts: true, prices: true, hours: true }

/** The journal of a car's file, as one workshop writes it for another. */
export function carJournal(from: Database, carId: CarId, choices: FileChoices = EVERYTHING): string {
  const lines = [...carLines(from, carId, Number.MAX_SAFE_INTEGER)].map((written) =>
    JSON.stringify(carFileLine(written, readPayload(written), choices)),
  )
  return `${lines.join('\n')}\n`
}

/** What is not the usual of a car that comes, and the name of the workshop that it comes from. */
export type Coming = Partial<CarToBringIn> & { readonly now: number; readonly from?: string }

/** What a journal comes to when it is brought in; the journal is kept where `into` has a folder. */
function cameCar(
  journal: string,
  into: Database,
  { from = 'Fen Lane Bodies', ...other }: Coming,
): CarToBringIn {
  const chain = readCameChain(journal, FACT_VERSION)
  if (!chain.ok) throw new Error(chain.refusal.message)
  const { facts, hash: head, lines, withheld } = chain.value
  const taken = takeOver(facts)
  const sha256 = createHash('sha256').update(journal).digest('hex')
  if (into.dataDir !== null) {
    const path = cameJournalPath(broughtInFolder(into.dataDir), sha256)
    mkdirSync(dirname(path), { recursive: true })
    writeFileSync(path, journal)
  }
  const leftOut = [...taken.leftOut.values()].reduce((sum, count) => sum + count, 0)
  return {
    id: commandIdSchema.parse('bring-in-1'),
    by: manager,
    device: desk,
    said: {
      from,
      head,
      lines,
      withheld,
      leftOut,
      journal: sha256,
      manifest: 'e'.repeat(64),
    },
    facts: taken.facts,
    contacts: new Map(),
    shellNumber: null,
    ...other,
  }
}

/** Brings a car of one workshop into another; must succeed. @returns the car's id */
export function bringIn(from: Database, carId: CarId, into: Database, other: Coming): CarId {
  const answer = tryBringIn(from, carId, into, other)
  if (!answer.ok) throw new Error(`${answer.refusal.message} ${answer.refusal.next}`)
  if (answer.carId === null) throw new Error('No car came of it.')
  return answer.carId
}

function tryBringIn(from: Database, carId: CarId, into: Database, other: Coming): CommandAnswer {
  return bringInCar(into, cameCar(carJournal(from, carId), into, other))
}
