import 'reflect-metadata'
import { createHash, X509Certificate } from 'node:crypto'
import { resolve } from 'node:path'
import {
  BasicConstraintsExtension,
  Extension,
  KeyUsageFlags,
  KeyUsagesExtension,
  PemConverter,
  SubjectKeyIdentifierExtension,
  X509CertificateGenerator,
} from '@peculiar/x509'
import { authorityKeyPath } from '../../db/data-paths.ts'
import { type KeyPair, readKeyPair, writeKeyPair } from './key-files.ts'
import { NAME_CONSTRAINTS, nameConstraints } from './name-constraints.ts'

/** Who vouches for this workshop's host, and for nothing else: devices trust its certificate. */
export interface Authority extends KeyPair {
  /** As a device lists it: 'Panelwright workshop 1a2b3c4d'. */
  readonly title: string
  /** The only host name that it may vouch for: 'panelwright-1a2b3c4d.local'. */
  readonly hostName: string
  /** Its certificate in DER, which is what a device is given. */
  readonly der: Uint8Array<ArrayBuffer>
  /** SHA-256 of the certificate, 64 hexadecimal digits in groups of four. */
  readonly fingerprint: string
}

/** The runtime's own; its name differs between the libraries of types. */
export type SigningKey = Awaited<ReturnType<typeof crypto.subtle.importKey>>

export const SIGNING = { name: 'ECDSA', namedCurve: 'P-256', hash: 'SHA-256' } as const

const DAY_MS = 24 * 3_600_000
const AUTHORITY_DAYS = 3_650

/**
 * The authority of a data folder, made and kept when there is none. It stays what it was when the folder moves.
 *
 * @param now epoch milliseconds, of the time that devices go by
 * @throws Error for people when its file is damaged, or cannot be written
 */
export async function loadAuthority(dataDir: string, now: number): Promise<Authority> {
  const path = authorityKeyPath(dataDir)
  const kept = readKeyPair(path)
  if (kept !== null) return pairToAuthority(kept, path)
  const made = await createAuthority(tagOf(dataDir), now)
  writeKeyPair(path, made)
  return pairToAuthority(made, path)
}

/** The SHA-256 of a certificate in groups of four, as it can be read out and compared. */
function fingerprintOf(der: Uint8Array): string {
  const hex = createHash('sha256').update(der).digest('hex').toUpperCase()
  return hex.replaceAll(/.{4}(?=.)/g, '$& ')
}

/** PKCS #8 as PEM. */
export async function exportKey(key: SigningKey): Promise<string> {
  return PemConverter.encode(await crypto.subtle.exportKey('pkcs8', key), 'PRIVATE KEY')
}

function tagOf(dataDir: string): string {
  return createHash('sha256').update('workshop network').update(resolve(dataDir)).digest('hex').slice(0, 8)
}

async function createAuthority(tag: string, now: number): Promise<KeyPair> {
  const keys = await crypto.subtle.generateKey(SIGNING, true, ['sign', 'verify'])
  const certificate = await X509CertificateGenerator.createSelfSigned({
    name: [{ CN: [titleOf(tag)] }],
    // A device whose clock is behind must not take it for one of the future.
    notBefore: new Date(now - DAY_MS),
    notAfter: new Date(now + AUTHORITY_DAYS * DAY_MS),
    keys,
    signingAlgorithm: SIGNING,
    extensions: [
      new BasicConstraintsExtension(true, 0, true),
      new KeyUsagesExtension(KeyUsageFlags.keyCertSign | KeyUsageFlags.cRLSign, true),
      new Extension(NAME_CONSTRAINTS, true, nameConstraints(hostNameOf(tag))),
      await SubjectKeyIdentifierExtension.create(keys.publicKey),
    ],
  })
  return { certificate: certificate.toString('pem'), key: await exportKey(keys.privateKey) }
}

function pairToAuthority(pair: KeyPair, path: string): Authority {
  const { raw, subject } = new X509Certificate(pair.certificate)
  const [, tag] = /^CN=Panelwright workshop ([0-9a-f]{8})$/.exec(subject) ?? []
  if (tag === undefined) throw new Error(`${path} holds no authority of Panelwright. Move it away.`)
  const der = new Uint8Array(raw)
  return { ...pair, title: titleOf(tag), hostName: hostNameOf(tag), der, fingerprint: fingerprintOf(der) }
}

const titleOf = (tag: string): string => `Panelwright workshop ${tag}`
const hostNameOf = (tag: string): string => `panelwright-${tag}.local`
