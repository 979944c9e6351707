import { hostCertificatePath } from '../../db/data-paths.ts'
import type { Trust } from '../api/network-desk.ts'
import { type Authority, loadAuthority } from './authority.ts'
import { certificateEnd, isCertificateDue, issueHostCertificate } from './host-certificate.ts'
import { type KeyPair, readKeyPair, writeKeyPair } from './key-files.ts'

export interface Credentials {
  readonly authority: Authority
  /** The host's own, and what a tablet needs to trust it; null where none is asked for. */
  readonly own: { readonly pair: KeyPair; readonly trust: Trust } | null
}

/**
 * The authority and, for these addresses, the host's certificate: those that are kept, or new ones where they are due.
 *
 * @param addresses none where nothing is signed: on plain HTTP, and while the computer is in no network
 * @param now epoch milliseconds, of the time that devices go by
 * @throws Error for people when a file is damaged or cannot be written
 */
export async function loadCredentials(
  dataDir: string,
  addresses: readonly string[],
  now: number,
): Promise<Credentials> {
  const authority = await loadAuthority(dataDir, now)
  if (addresses.length === 0) return { authority, own: null }
  const pair = await loadHostPair(hostCertificatePath(dataDir), authority, addresses, now)
  const { title, fingerprint } = authority
  return { authority, own: { pair, trust: { title, fingerprint, until: certificateEnd(pair) } } }
}

async function loadHostPair(
  path: string,
  authority: Authority,
  addresses: readonly string[],
  now: number,
): Promise<KeyPair> {
  const kept = readKeyPair(path)
  if (kept !== null && !isCertificateDue(kept, authority, addresses, now)) return kept
  const made = await issueHostCertificate(authority, addresses, now)
  writeKeyPair(path, made)
  return made
}
