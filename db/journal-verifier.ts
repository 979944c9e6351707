import { Buffer } from 'node:buffer'
import { canonicalJson } from '../domain/text/canonical-json.ts'
import { ok, refuse, type Result } from '../domain/refusal.ts'
import type { CarFileLine } from '../domain/report/car-file-shapes.ts'
import { CHAIN_START, lineHash, payloadDigest } from './journal-hash.ts'

/** The end of a chain that was verified. */
export interface VerifiedChain {
  readonly lines: number
  /** Of the last line. */
  readonly hash: string
  /** Lines that were not shown whole. */
  readonly withheld: number
}

export interface JournalVerifier {
  /** Refuses the first line that is not what it must be. */
  readonly take: (line: CarFileLine) => Result<null>
  /** Refuses a journal without lines. */
  readonly finish: () => Result<VerifiedChain>
}

/**
 * Recomputes all that the lines of a car's journal say, from the lines alone and as they come: that they follow each other without
 * a gap, each names the one before it, each shown line has its hash, and each payload that is shown whole its digest.
 */
export function createJournalVerifier(): JournalVerifier {
  let before: Pick<CarFileLine, 'chain' | 'number'> | null = null
  let end: VerifiedChain = { lines: 0, hash: CHAIN_START, withheld: 0 }
  return {
    take: (line) => {
      const problem = problemOf(line, end, before)
      if (problem !== null) return changed(`Line ${end.lines + 1} of the journal: ${problem}.`)
      before = line
      const withheld = end.withheld + (line.shown === 'whole' ? 0 : 1)
      end = { lines: end.lines + 1, hash: line.hash, withheld }
      return ok(null)
    },
    finish: () => (end.lines === 0 ? changed('The journal has no lines.') : ok(end)),
  }
}

function problemOf(
  line: CarFileLine,
  end: VerifiedChain,
  before: Pick<CarFileLine, 'chain' | 'number'> | null,
): string | null {
  if (before !== null && line.chain !== before.chain) return 'it belongs to another car'
  if (before !== null && line.number <= before.number) return 'its number does not follow'
  if (line.chainNumber !== end.lines + 1) return 'its place in its chain does not follow'
  if (line.prev !== end.hash) return 'it does not name the line before it'
  if (line.shown === 'sealed') return null
  if (hashOf(line) !== line.hash) return 'its hash is not that of what it says'
  return line.shown === 'whole' && digestOf(line) !== line.digest
    ? 'its payload is not what was recorded'
    : null
}

/** Branded ids are plain text to a hash. */
function hashOf(line: Exclude<CarFileLine, { readonly shown: 'sealed' }>): string {
  return lineHash(line as unknown as Parameters<typeof lineHash>[0])
}

function digestOf({ salt, payload }: Extract<CarFileLine, { readonly shown: 'whole' }>): string {
  return payloadDigest(Buffer.from(salt, 'hex'), canonicalJson(payload))
}

function changed(message: string) {
  return refuse(
    'bad-input',
    `${message} The record was changed after it was written.`,
    'Ask the workshop that wrote the file for it again; nothing of this one was taken.',
  )
}
