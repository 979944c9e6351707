import { factSchemas, type NewFact } from '../domain/facts.ts'
import { errorMessage } from '../domain/text/error-words.ts'
import { fault, RESTORE, type CheckFinding } from './check-finding.ts'
import type { Handle } from './handle.ts'
import { readPayload } from './journal-converters.ts'
import { CHAIN_START, lineHash, payloadDigest } from './journal-hash.ts'
import { commandAnswer, WORKSHOP_CHAIN, type Chain } from './schema.ts'
import { storedLines, type StoredLine } from './stored-lines.ts'

/** Goes through the journal once, from its first line to its last, and recomputes everything that a line says. */
export function checkJournal(reader: Handle): readonly CheckFinding[] {
  const walk: Walk = {
    number: 0,
    recorded: 0,
    chains: new Map(),
    hashes: new Map(),
    commands: new Map(),
    unlinked: new Set(),
  }
  const findings: CheckFinding[] = []
  for (const lines of storedLines(reader))
    for (const line of lines) {
      findings.push(...problemsOf(line, walk).map((problem) => changed(line, problem)))
      step(walk, line)
    }
  return [...findings, ...checkEnd(reader, walk), ...checkAnswers(reader, walk)]
}

/** What the lines so far have said. */
interface Walk {
  number: number
  /** Epoch milliseconds. */
  recorded: number
  readonly chains: Map<Chain, { readonly chainNumber: number; readonly hash: string }>
  readonly hashes: Map<Chain, Set<string>>
  readonly commands: Map<string, number[]>
  /** Cars' chains that have grown since heads were last linked. */
  readonly unlinked: Set<Chain>
}

function problemsOf(line: StoredLine, walk: Walk): readonly string[] {
  const before = walk.chains.get(line.chain) ?? { chainNumber: 0, hash: CHAIN_START }
  return [
    ...(line.number === walk.number + 1 ? [] : [`line ${walk.number + 1} is missing before it`]),
    ...(line.chainNumber === before.chainNumber + 1 ? [] : ['its place in its chain does not follow']),
    ...(line.prev === before.hash ? [] : ['it does not name the line before it in its chain']),
    ...(line.hash === lineHash(line) ? [] : ['its hash is not that of what it says']),
    ...(Date.parse(line.recorded) >= walk.recorded ? [] : ['its time runs backwards']),
    ...payloadProblems(line, walk),
  ]
}

function payloadProblems(line: StoredLine, walk: Walk): readonly string[] {
  const { json, salt } = line
  if (json === null || salt === null) return ['its payload is missing']
  if (payloadDigest(salt, json) !== line.digest) return ['its payload is not what was recorded']
  const fact = parse(line.kind, line.version, json)
  return typeof fact === 'string' ? [fact] : headProblems(fact, line, walk)
}

function parse(kind: string, version: number, json: string): NewFact | string {
  try {
    const fact = readPayload({ kind, version, json })
    const parsed = factSchemas[fact.kind].safeParse(fact.payload)
    return parsed.success ? fact : 'its payload has not the shape of its kind'
  } catch (error) {
    return errorMessage(error)
  }
}

/** Links and reports name heads of chains: those must be what the chains had come to by then. */
function headProblems(fact: NewFact, line: StoredLine, walk: Walk): readonly string[] {
  if (fact.kind === 'headsLinked') {
    const heads = new Map(Object.entries(fact.payload.heads))
    // Earlier programs named every chain, not only those that had grown.
    const isSame =
      [...walk.unlinked].every((chain) => heads.has(chain)) &&
      [...heads].every(([chain, hash]) => walk.chains.get(chain as Chain)?.hash === hash)
    return isSame ? [] : ['a chain is not what it was when the chains were linked']
  }
  if (fact.kind === 'reportIssued' && !walk.hashes.get(line.chain)?.has(fact.payload.head))
    return ['the head that the issued report prints is not in the chain']
  return []
}

function step(walk: Walk, { number, recorded, chain, chainNumber, hash, kind, commandId }: StoredLine): void {
  walk.number = number
  walk.recorded = Math.max(walk.recorded, Date.parse(recorded) || 0)
  walk.chains.set(chain, { chainNumber, hash })
  const hashes = walk.hashes.get(chain) ?? new Set()
  walk.hashes.set(chain, hashes.add(hash))
  if (chain !== WORKSHOP_CHAIN) walk.unlinked.add(chain)
  if (kind === 'headsLinked') walk.unlinked.clear()
  // Links are the host's own and answer no command.
  if (kind !== 'headsLinked') walk.commands.set(commandId, [...(walk.commands.get(commandId) ?? []), number])
}

/** SQLite remembers the highest number that the journal ever had. */
function checkEnd({ sqlite }: Handle, walk: Walk): readonly CheckFinding[] {
  const sequence = sqlite.prepare(`SELECT seq FROM sqlite_sequence WHERE name = 'journal'`).pluck()
  const highest = Number(sequence.get() ?? 0)
  if (highest === walk.number) return []
  return [fault(`The journal ends at line ${walk.number}, but had ${highest} lines.`, CHANGED, RESTORE)]
}

/** A command leaves all of its facts or none, and its answer with them. */
function checkAnswers({ orm }: Handle, { commands }: Walk): readonly CheckFinding[] {
  const answers = new Map(
    orm
      .select({ commandId: commandAnswer.commandId, numbers: commandAnswer.numbers })
      .from(commandAnswer)
      .all()
      .map(({ commandId, numbers }): [string, readonly number[]] => [commandId, numbers]),
  )
  return [...new Set([...answers.keys(), ...commands.keys()])]
    .filter((id) => String(answers.get(id) ?? 'none') !== String(commands.get(id) ?? []))
    .map((id) =>
      fault(`The answer to the command ${id} does not name the lines that it left.`, CHANGED, RESTORE),
    )
}

const CHANGED = 'The journal was changed after it was written, by hand or by a failing disk.'

function changed({ number, chain }: StoredLine, problem: string): CheckFinding {
  const where = chain === WORKSHOP_CHAIN ? 'the workshop' : `the car ${chain}`
  return fault(`Line ${number} of the journal, of ${where}: ${problem}.`, CHANGED, RESTORE)
}
