import { hostCertificatePath } from '../../db/data-paths.ts'
import type { Authority } from './authority.ts'
import { isCertificateDue, issueHostCertificate } from './host-certificate.ts'
import { type KeyPair, readKeyPair, writeKeyPair } from './key-files.ts'

/**
 * The host's certificate and key for these addresses: those that are kept, or new ones where they are due.
 *
 * @param now epoch milliseconds, of the time that devices go by
 * @throws Error for people when the file is damaged or cannot be written
 */
export async function loadHostPair(
  dataDir: string,
  authority: Authority,
  addresses: readonly string[],
  now: number,
): Promise<KeyPair> {
  const path = hostCertificatePath(dataDir)
  const kept = readKeyPair(path)
  if (kept !== null && !isCertificateDue(kept, authority, addresses, now)) return kept
  const made = await issueHostCertificate(authority, addresses, now)
  writeKeyPair(path, made)
  return made
}
