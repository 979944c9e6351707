import { createHash } from 'node:crypto'
import type { Buffer } from 'node:buffer'
import { canonicalJson } from '../domain/text/canonical-json.ts'
import type { journal } from './schema.ts'

export type JournalRow = typeof journal.$inferSelect

/** What the first line of every chain names as the hash before it. */
export const CHAIN_START = '0'.repeat(64)

/** Random bytes before each payload, so that a withheld one cannot be guessed from its digest. */
export const SALT_BYTES = 16

/** SHA-256 (FIPS 180-4) over the salt and the payload's canonical text in UTF-8, lower-case hexadecimal. */
export function payloadDigest(salt: Buffer, json: string): string {
  return createHash('sha256').update(salt).update(json, 'utf8').digest('hex')
}

/**
 * SHA-256 over the canonical JSON of everything else that the line holds. As the hash of the line before in its chain is
 * part of it, no earlier line can be changed, left out or put in without changing every later hash.
 */
export function lineHash(line: Omit<JournalRow, 'hash'>): string {
  const { number, chain, chainNumber, kind, version, visitId, by, device, commandId } = line
  const { happened, made, recorded, digest, prev } = line
  const what = { number, chain, chainNumber, kind, version, visitId, by, device, commandId }
  const said = { ...what, happened, made, recorded, digest, prev }
  return createHash('sha256').update(canonicalJson(said), 'utf8').digest('hex')
}
