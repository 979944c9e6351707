import { Buffer } from 'node:buffer'
import { factSchemas, isFactKind, FACT_VERSION, type Fact } from '../domain/facts.ts'
import { carIdSchema } from '../domain/ids.ts'
import { ok, refuse, type Refusal, type Result } from '../domain/refusal.ts'
import { canonicalJson } from '../domain/text/canonical-json.ts'
import { readPayload } from './journal-converters.ts'
import { CHAIN_START, lineHash, payloadDigest, type JournalRow } from './journal-hash.ts'

/** A line of another workshop's chain as its file holds it. */
export interface CameLine extends JournalRow {
  /** Null where it was withheld. */
  readonly payload: unknown
  /** Hexadecimal; null where the payload was withheld or shortened, so that its digest proves nothing of it. */
  readonly salt: string | null
}

/** A chain whose every hash is right. */
export interface CameChain {
  /** Facts whose content came, in order, as the newest version, with the numbers of the other workshop. */
  readonly facts: readonly Fact[]
  readonly head: string
  readonly lines: number
  /** Lines whose content did not come whole. */
  readonly withheld: number
}

/**
 * Verifies a chain from itself alone: the order of its lines, each hash over everything but the payload, and the digest of
 * every payload that came with its salt. What was shortened before it left is taken where it still has its kind's shape.
 */
export function verifyCameChain(lines: Iterable<CameLine>): Result<CameChain> {
  const facts: Fact[] = []
  let [count, withheld, number, prev] = [0, 0, 0, CHAIN_START]
  let chain: string | null = null
  for (const line of lines) {
    count += 1
    chain ??= line.chain
    const follows = line.chainNumber === count && line.number > number && line.prev === prev
    if (!follows || line.chain !== chain || line.hash !== lineHash(line)) return broken(count)
    if (line.payload !== null && line.salt !== null && !hasDigest(line, line.salt)) return broken(count)
    if (line.payload === null || line.salt === null) withheld += 1
    const fact = toFact(line)
    if ('refusal' in fact) return { ok: false, refusal: fact.refusal }
    facts.push(...fact.facts)
    number = line.number
    prev = line.hash
  }
  if (facts[0]?.kind !== 'carAdded' || facts[0].payload.carId !== chain) return noCar
  return ok({ facts, head: prev, lines: count, withheld })
}

const hasDigest = ({ payload, digest }: CameLine, salt: string): boolean =>
  payloadDigest(Buffer.from(salt, 'hex'), canonicalJson(payload)) === digest

type Read = { readonly facts: readonly Fact[] } | { readonly refusal: Refusal }

function toFact(line: CameLine): Read {
  const { kind, version, number, visitId, by, device, commandId, happened, made, recorded } = line
  if (!isFactKind(kind) || version > FACT_VERSION) return { refusal: newer }
  if (line.payload === null) return { facts: [] }
  const read = tryRead(line)
  if (read === null) return line.salt === null ? { facts: [] } : { refusal: broken(line.chainNumber).refusal }
  const carId = carIdSchema.parse(line.chain)
  const envelope = { number, version, carId, visitId, by, device, commandId, happened, made, recorded }
  return { facts: [{ ...envelope, ...read } as Fact] }
}

/** Null where the payload has not the shape of its kind. */
function tryRead({ kind, version, payload }: CameLine) {
  try {
    const fact = readPayload({ kind, version, json: JSON.stringify(payload) })
    return factSchemas[fact.kind].safeParse(fact.payload).success ? fact : null
  } catch {
    // A converter met a shape that its version never had.
    return null
  }
}

const broken = (line: number) =>
  refuse(
    'bad-input',
    `Line ${line} of the journal in this file is not what was recorded: the chain is broken there.`,
    'Ask the other workshop to make the car’s file again. Nothing was brought in.',
  )
const noCar = refuse(
  'bad-input',
  'The journal in this file does not begin with a car.',
  'Ask the other workshop to make the car’s file again. Nothing was brought in.',
)
const { refusal: newer } = refuse(
  'bad-input',
  'This file was made by a newer Panelwright, which knows facts that this one does not.',
  'Bring this Panelwright up to date, then bring the car in.',
)
