import 'reflect-metadata'
import { X509Certificate } from 'node:crypto'
import {
  AuthorityKeyIdentifierExtension,
  BasicConstraintsExtension,
  ExtendedKeyUsage,
  ExtendedKeyUsageExtension,
  KeyUsageFlags,
  KeyUsagesExtension,
  PemConverter,
  SubjectAlternativeNameExtension,
  SubjectKeyIdentifierExtension,
  X509Certificate as IssuerCertificate,
  X509CertificateGenerator,
} from '@peculiar/x509'
import { type Authority, exportKey, SIGNING, type SigningKey } from './authority.ts'
import type { KeyPair } from './key-files.ts'

const DAY_MS = 24 * 3_600_000

/** Browsers of tablets take at most 398 days, also from authorities that were added by hand. */
const LASTS_DAYS = 397
const RENEWED_BEFORE_END_DAYS = 30

/**
 * A new key and a certificate for it, for the host under its name and these addresses.
 *
 * @param now epoch milliseconds, of the time that devices go by
 */
export async function issueHostCertificate(
  authority: Authority,
  addresses: readonly string[],
  now: number,
): Promise<KeyPair> {
  const keys = await crypto.subtle.generateKey(SIGNING, true, ['sign', 'verify'])
  const issuer = new IssuerCertificate(authority.certificate)
  // A device whose clock is behind must not take it for one of the future.
  const notBefore = now - DAY_MS
  const certificate = await X509CertificateGenerator.create({
    subject: [{ CN: [authority.hostName] }],
    issuer: issuer.subjectName,
    notBefore: new Date(notBefore),
    notAfter: new Date(notBefore + LASTS_DAYS * DAY_MS),
    publicKey: keys.publicKey,
    signingKey: await importKey(authority.key),
    signingAlgorithm: SIGNING,
    extensions: [
      new BasicConstraintsExtension(false, undefined, true),
      new KeyUsagesExtension(KeyUsageFlags.digitalSignature, true),
      new ExtendedKeyUsageExtension([ExtendedKeyUsage.serverAuth]),
      new SubjectAlternativeNameExtension([
        { type: 'dns', value: authority.hostName },
        ...addresses.map((value) => ({ type: 'ip' as const, value })),
      ]),
      await AuthorityKeyIdentifierExtension.create(issuer.publicKey),
      await SubjectKeyIdentifierExtension.create(keys.publicKey),
    ],
  })
  return { certificate: certificate.toString('pem'), key: await exportKey(keys.privateKey) }
}

/** Whether another certificate is due: near its end, of another authority, or not for each of these addresses. */
export function isCertificateDue(
  { certificate }: KeyPair,
  authority: Authority,
  addresses: readonly string[],
  now: number,
): boolean {
  const kept = new X509Certificate(certificate)
  const isNearItsEnd = now > endOf(kept) - RENEWED_BEFORE_END_DAYS * DAY_MS
  const isAhead = now < Date.parse(kept.validFrom)
  const isOurs = kept.verify(new X509Certificate(authority.certificate).publicKey)
  return isNearItsEnd || isAhead || !isOurs || addresses.some((each) => kept.checkIP(each) === undefined)
}

/** Epoch milliseconds. */
export function certificateEnd({ certificate }: KeyPair): number {
  return endOf(new X509Certificate(certificate))
}

function endOf(certificate: X509Certificate): number {
  return Date.parse(certificate.validTo)
}

function importKey(pem: string): Promise<SigningKey> {
  return crypto.subtle.importKey('pkcs8', PemConverter.decodeFirst(pem), SIGNING, false, ['sign'])
}
