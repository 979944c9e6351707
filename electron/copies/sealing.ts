import { createHmac, hkdfSync, randomBytes, scrypt, timingSafeEqual } from 'node:crypto'
import type { Sealing } from '../../domain/copies/copy-shapes.ts'
import { sealedBytes, sealStream, unsealStream } from './seal-stream.ts'
import type { Wrapping } from './wrapping.ts'

/**
 * 128 MB and about half a second a guess: what OWASP's Password Storage Cheat Sheet names as the least for scrypt,
 * N = 2^17, r = 8, p = 1.
 */
const SCRYPT = { N: 2 ** 17, r: 8, p: 1 } as const
const KEY_BYTES = 32
const SALT_BYTES = 16

/** What seals and opens the copies of one passphrase. Kept under `private/`, so that copies are made without asking anybody. */
export interface CopyKey {
  readonly key: Uint8Array
  readonly sealing: Sealing
}

/** The key of a new passphrase, with a salt of its own; takes about half a second. */
export async function createCopyKey(passphrase: string): Promise<CopyKey> {
  const salt = randomBytes(SALT_BYTES)
  const key = await derive(passphrase, salt, SCRYPT)
  return { key, sealing: { scrypt: SCRYPT, salt: salt.toString('hex'), check: checkOf(key) } }
}

/** The key of a sealed copy; null for a wrong passphrase. */
export async function keyOfPassphrase(passphrase: string, sealing: Sealing): Promise<CopyKey | null> {
  const key = await derive(passphrase, Buffer.from(sealing.salt, 'hex'), sealing.scrypt)
  return isKeyOf(key, sealing) ? { key, sealing } : null
}

/** Whether a key is the one that something was sealed with. */
export function isKeyOf(key: Uint8Array, { check }: Sealing): boolean {
  return timingSafeEqual(Buffer.from(checkOf(key), 'hex'), Buffer.from(check, 'hex'))
}

/** Names are keyed, so that nobody can tell by its digest whether a file that they have is in the copy. */
export function sealedWith({ key, sealing }: CopyKey): Wrapping {
  const names = subkey(key, 'names')
  const files = subkey(key, 'files')
  return {
    sealing,
    nameOf: (sha256) => createHmac('sha256', names).update(sha256, 'hex').digest('hex'),
    sizeOf: sealedBytes,
    wrap: (name) => [sealStream(files, name)],
    unwrap: (name) => [unsealStream(files, name)],
  }
}

const checkOf = (key: Uint8Array): string => Buffer.from(subkey(key, 'check')).toString('hex')

/** HKDF (RFC 5869) keeps the keys of different uses apart. */
const subkey = (key: Uint8Array, use: string): Uint8Array =>
  new Uint8Array(hkdfSync('sha256', key, new Uint8Array(0), `panelwright copies: ${use}`, KEY_BYTES))

/** The same letters typed on another keyboard may be other code points: RFC 8265 asks for NFC. */
function derive(passphrase: string, salt: Uint8Array, { N, r, p }: Sealing['scrypt']): Promise<Uint8Array> {
  const options = { N, r, p, maxmem: 256 * N * r }
  return new Promise((resolve, reject) => {
    scrypt(passphrase.normalize('NFC'), salt, KEY_BYTES, options, (error, key) =>
      error ? reject(error) : resolve(key),
    )
  })
}
