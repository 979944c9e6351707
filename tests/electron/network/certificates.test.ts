import { execFileSync } from 'node:child_process'
import { X509Certificate } from 'node:crypto'
import { mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { authorityKeyPath } from '../../../db/data-paths.ts'
import { type Authority, loadAuthority } from '../../../electron/network/authority.ts'
import {
  certificateEnd,
  isCertificateDue,
  issueHostCertificate,
} from '../../../electron/network/host-certificate.ts'

const DAY_MS = 24 * 3_600_000
const now = Date.now()
let dataDir: string
let authority: Authority
beforeAll(async () => {
  dataDir = mkdtempSync(join(tmpdir(), 'panelwright-authority-'))
  authority = await loadAuthority(dataDir, now)
  writeFileSync(join(dataDir, 'authority.crt'), authority.certificate)
})
afterAll(() => rmSync(dataDir, { recursive: true, force: true }))

/** What openssl says of a certificate, whether it takes it or not. */
function openssl(...args: readonly string[]): string {
  try {
    return execFileSync('openssl', args, { encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] })
  } catch (error) {
    return String((error as { stderr?: unknown }).stderr ?? error)
  }
}

function verified(certificate: string, ...more: readonly string[]): string {
  const path = join(dataDir, 'host.crt')
  writeFileSync(path, certificate)
  return openssl(
    'verify',
    '-x509_strict',
    '-purpose',
    'sslserver',
    ...more,
    '-CAfile',
    join(dataDir, 'authority.crt'),
    path,
  )
}

describe('the authority of a workshop', () => {
  test('is limited by critical extensions, as openssl reads them', () => {
    const text = openssl('x509', '-noout', '-text', '-in', join(dataDir, 'authority.crt'))
    expect(text).toMatch(/Basic Constraints: critical\s+CA:TRUE, pathlen:0\n/)
    expect(text).toMatch(/Key Usage: critical\s+Certificate Sign, CRL Sign\n/)
    expect(text).toMatch(/Name Constraints: critical\s+Permitted:/)
    expect(text).toContain('ASN1 OID: prime256v1')
    const permitted = [...text.matchAll(/^ +(?:DNS|IP):(.+)$/gm)].map((match) => match[1])
    expect(permitted).toEqual([
      authority.hostName,
      '10.0.0.0/255.0.0.0',
      '172.16.0.0/255.240.0.0',
      '192.168.0.0/255.255.0.0',
      '169.254.0.0/255.255.0.0',
      'FC00:0:0:0:0:0:0:0/FE00:0:0:0:0:0:0:0',
      'FE80:0:0:0:0:0:0:0/FFC0:0:0:0:0:0:0:0',
    ])
  })

  test('is made once, and its key is for this account alone', async () => {
    expect((await loadAuthority(dataDir, now + DAY_MS)).fingerprint).toBe(authority.fingerprint)
    expect(statSync(authorityKeyPath(dataDir)).mode & 0o777).toBe(0o600)
  })

  test('tells the fingerprint that openssl tells', () => {
    const told = openssl('x509', '-noout', '-fingerprint', '-sha256', '-in', join(dataDir, 'authority.crt'))
    expect(told.replaceAll(':', '')).toContain(authority.fingerprint.replaceAll(' ', ''))
  })

  test('whose file is damaged is told with what to do', async () => {
    const folder = mkdtempSync(join(tmpdir(), 'panelwright-authority-'))
    await loadAuthority(folder, now)
    writeFileSync(authorityKeyPath(folder), 'not a key')
    await expect(loadAuthority(folder, now)).rejects.toThrow('Move it away')
    rmSync(folder, { recursive: true })
  })
})

describe('a certificate of the host', () => {
  test.each(['192.168.1.20', '10.4.0.7', '172.31.255.1', '169.254.9.9', 'fd12:3456::7'])(
    'for %s is taken by openssl, for that address and the name and no other',
    async (address) => {
      const { certificate } = await issueHostCertificate(authority, [address], now)
      expect(verified(certificate, '-verify_ip', address)).toContain(': OK')
      expect(verified(certificate, '-verify_hostname', authority.hostName)).toContain(': OK')
      expect(verified(certificate, '-verify_ip', '192.168.1.21')).toContain('IP address mismatch')
    },
  )

  test.each(['203.0.113.9', '8.8.4.4', '172.32.0.1', '192.169.0.1', '127.0.0.1', '2001:db8::1'])(
    'for %s, which is not private, is refused by openssl',
    async (address) => {
      const { certificate } = await issueHostCertificate(authority, [address], now)
      expect(verified(certificate)).toContain('permitted subtree violation')
    },
  )

  test('for another name is refused by openssl', async () => {
    const other = { ...authority, hostName: 'bank.example' }
    const { certificate } = await issueHostCertificate(other, ['192.168.1.20'], now)
    expect(verified(certificate)).toContain('permitted subtree violation')
  })

  test('serves as a server alone, and lasts 397 days', async () => {
    const { certificate } = await issueHostCertificate(authority, ['192.168.1.20'], now)
    const read = new X509Certificate(certificate)
    expect(Date.parse(read.validTo) - Date.parse(read.validFrom)).toBe(397 * DAY_MS)
    expect(read.ca).toBe(false)
    expect(verified(certificate, '-purpose', 'sslclient')).not.toContain(': OK')
  })

  test('is due 30 days before its end, for a new address, and under another authority', async () => {
    const pair = await issueHostCertificate(authority, ['192.168.1.20', 'fd00::7'], now)
    const days = (before: number) => certificateEnd(pair) - before * DAY_MS
    const isDue = (addresses: readonly string[], at = now) => isCertificateDue(pair, authority, addresses, at)
    expect(isDue(['192.168.1.20', 'fd00::7'])).toBe(false)
    expect(isDue(['192.168.1.20'], days(31))).toBe(false)
    expect(isDue(['192.168.1.20'], days(29))).toBe(true)
    expect(isDue(['192.168.1.20', '10.0.0.5'])).toBe(true)
    const other = await loadAuthority(join(dataDir, 'other'), now)
    expect(isCertificateDue(pair, other, ['192.168.1.20'], now)).toBe(true)
  })
})
