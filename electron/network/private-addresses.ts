import { BlockList, isIPv6 } from 'node:net'
import type { NetworkInterfaceInfo } from 'node:os'

export interface AddressRange {
  readonly family: 'ipv4' | 'ipv6'
  /** First address of the range, one byte after the other: 4 or 16 of them. */
  readonly bytes: readonly number[]
  /** How many leading bits all its addresses share. */
  readonly prefix: number
}

/** What no router passes on to the world: RFC 1918, RFC 3927, RFC 4193 and the link-local part of RFC 4291. */
export const PRIVATE_RANGES: readonly AddressRange[] = [
  { family: 'ipv4', bytes: [10, 0, 0, 0], prefix: 8 },
  { family: 'ipv4', bytes: [172, 16, 0, 0], prefix: 12 },
  { family: 'ipv4', bytes: [192, 168, 0, 0], prefix: 16 },
  { family: 'ipv4', bytes: [169, 254, 0, 0], prefix: 16 },
  { family: 'ipv6', bytes: [0xfc, ...zeros(15)], prefix: 7 },
  { family: 'ipv6', bytes: [0xfe, 0x80, ...zeros(14)], prefix: 10 },
]

/** Interfaces and their addresses, as `os.networkInterfaces()` answers. */
export type Interfaces = Readonly<
  Record<string, readonly Pick<NetworkInterfaceInfo, 'address' | 'internal'>[] | undefined>
>

/**
 * The addresses of this computer that tablets of the same network can type, sorted. Link-local ones of IPv6 are left out: a
 * browser takes no address that needs an interface named beside it.
 */
export function privateAddresses(interfaces: Interfaces): readonly string[] {
  const found = Object.values(interfaces)
    .flatMap((each) => each ?? [])
    .filter(({ address, internal }) => !internal && isPrivate(address) && !isLinkLocal6(address))
  return [...new Set(found.map(({ address }) => address))].sort()
}

/** Host and port as in an address; an IPv6 address stands in brackets there. */
export function authorityOf(address: string, port: number): string {
  return `${isIPv6(address) ? `[${address}]` : address}:${port}`
}

const privateList = new BlockList()
for (const { family, bytes, prefix } of PRIVATE_RANGES)
  privateList.addSubnet(family === 'ipv4' ? bytes.join('.') : ipv6Of(bytes), prefix, family)

function isPrivate(address: string): boolean {
  return privateList.check(address, isIPv6(address) ? 'ipv6' : 'ipv4')
}

/** Only called for private addresses, of which all that begin with fe are link-local. */
function isLinkLocal6(address: string): boolean {
  return isIPv6(address) && address.toLowerCase().startsWith('fe')
}

function ipv6Of(bytes: readonly number[]): string {
  const hex = bytes.map((byte) => byte.toString(16).padStart(2, '0')).join('')
  return hex.replaceAll(/.{4}(?=.)/g, '$&:')
}

function zeros(count: number): readonly number[] {
  return Array.from({ length: count }, () => 0)
}
