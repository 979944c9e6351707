import { randomBytes } from 'node:crypto'
import { FACT_VERSION, type Fact, type NewFact } from '../domain/facts.ts'
import type { CarId, CommandId, DeviceId, PersonId, VisitId } from '../domain/ids.ts'
import { canonicalJson } from '../domain/text/canonical-json.ts'
import { perHandle, type Handle } from './handle.ts'
import { chainOf, headOf, lastLine, rowToFact } from './chains.ts'
import { lineHash, payloadDigest, SALT_BYTES } from './journal-hash.ts'
import { placeholders } from './placeholders.ts'
import { journal, payload } from './schema.ts'

/** What is said of every fact of one command. Times are ISO 8601 with offset; `now` is epoch milliseconds. */
export interface Recording {
  readonly carId: CarId | null
  /** The car's current visit before the command. */
  readonly visitId: VisitId | null
  readonly by: PersonId | null
  readonly device: DeviceId | null
  readonly commandId: CommandId
  readonly happened: string
  readonly made: string
  readonly now: number
}

/**
 * Writes facts to the end of their chain. Recorded time never runs backwards: a host clock that was put back records
 * the time of the line before until it has caught up. Must run inside a transaction.
 *
 * @returns the facts as they will be read again
 */
export function appendFacts(writer: Handle, facts: readonly NewFact[], said: Recording): readonly Fact[] {
  const { carId, by, device, commandId, happened, made } = said
  const chain = chainOf(carId)
  const last = lastLine(writer)
  const recorded = new Date(Math.max(said.now, last ? Date.parse(last.recorded) : 0)).toISOString()
  const common = { chain, version: FACT_VERSION, by, device, commandId, happened, made, recorded }
  let number = last?.number ?? 0
  let { chainNumber, hash: prev } = headOf(writer, chain)
  let visitId = said.visitId
  return facts.map(({ kind, payload: content }) => {
    const json = canonicalJson(content)
    const salt = randomBytes(SALT_BYTES)
    const digest = payloadDigest(salt, json)
    if (kind === 'visitOpened') visitId = content.visitId
    number += 1
    chainNumber += 1
    const line = { ...common, number, chainNumber, kind, visitId, digest, prev }
    prev = lineHash(line)
    queries(writer).line.run({ ...line, hash: prev })
    queries(writer).payload.run({ number, json, salt })
    return rowToFact({ ...line, json })
  })
}

const queries = perHandle(({ orm }) => ({
  line: orm.insert(journal).values(placeholders(journal)).prepare(),
  payload: orm.insert(payload).values(placeholders(payload)).prepare(),
}))
