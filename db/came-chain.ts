import { FACT_VERSION, factSchemas, isFactKind, type Fact } from '../domain/facts.ts'
import { ok, refuse, type Result } from '../domain/refusal.ts'
import { carFileLineSchema, type CarFileLine } from '../domain/report/car-file-shapes.ts'
import { parseJson } from '../domain/text/parse-json.ts'
import { readPayload } from './journal-converters.ts'
import { createJournalVerifier, type VerifiedChain } from './journal-verifier.ts'

/** A car's chain as its file holds it, with all in it that can be verified found right. */
export interface CameChain extends VerifiedChain {
  /** Facts whose content came, in order, as the newest version, with the numbers of the other workshop. */
  readonly facts: readonly Fact[]
}

/**
 * Reads the journal of a car's file (JSON Lines), verifies it from itself alone and reads its facts. What was shortened before
 * it left is taken where it still has its kind's shape.
 *
 * @param factVersion the newest version of facts where the file was written, which shortened lines follow
 */
export function readCameChain(text: string, factVersion: number): Result<CameChain> {
  const facts: Fact[] = []
  const verifier = createJournalVerifier()
  let place = 0
  for (const json of text.split('\n')) {
    if (json === '') continue
    place += 1
    const line = carFileLineSchema.safeParse(parseJson(json)).data
    if (line === undefined) return unreadable(place)
    if (!isFactKind(line.kind) || line.version > FACT_VERSION) return newerFile
    const taken = verifier.take(line)
    if (!taken.ok) return taken
    const fact = toFact(line, factVersion)
    if (fact !== null) facts.push(fact)
    else if (line.shown === 'whole') return unreadable(place)
  }
  const end = verifier.finish()
  if (!end.ok) return end
  const [first] = facts
  if (first?.kind !== 'carAdded' || first.payload.carId !== first.carId) return noCar
  return ok({ ...end.value, facts })
}

/** Null where nothing of the content came, or what came has not the shape of its kind. */
function toFact(line: CarFileLine, factVersion: number): Fact | null {
  if (line.shown === 'sealed') return null
  const { kind, number, visitId, by, device, commandId, happened, made, recorded } = line
  const [payload, version] =
    line.shown === 'whole' ? [line.payload, line.version] : [line.redacted, factVersion]
  try {
    const read = readPayload({ kind, version, json: JSON.stringify(payload) })
    const parsed = factSchemas[read.kind].safeParse(read.payload)
    const envelope = { number, version, carId: line.chain, visitId, by, device, commandId }
    return parsed.success ? ({ ...envelope, happened, made, recorded, ...read } as Fact) : null
  } catch {
    // A converter met a shape that its version never had.
    return null
  }
}

const AGAIN = 'Ask the other workshop to make the car’s file again. Nothing was brought in.'

const unreadable = (line: number) =>
  refuse('bad-input', `Line ${line} of the journal in this file cannot be read.`, AGAIN)
const noCar = refuse('bad-input', 'The journal in this file does not begin with its car.', AGAIN)

/** For a file that this program is too old for. */
export const newerFile = refuse(
  'bad-input',
  'This file was made by a newer Panelwright than this one.',
  'Bring this Panelwright up to date, then bring the car in. Nothing was brought in.',
)
