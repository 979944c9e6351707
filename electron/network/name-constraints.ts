import { type AddressRange, PRIVATE_RANGES } from './private-addresses.ts'

/** Object identifier of the extension, RFC 5280, 4.2.1.10. */
export const NAME_CONSTRAINTS = '2.5.29.30'

/**
 * The value of a certificate's name constraints in DER: only this name, names below it and private addresses are permitted.
 * The certificate library has no extension of its own for them.
 *
 * @param name ASCII host name
 */
export function nameConstraints(name: string): Uint8Array<ArrayBuffer> {
  const subtrees = [
    der(SEQUENCE, der(DNS_NAME, new TextEncoder().encode(name))),
    ...PRIVATE_RANGES.map((range) => der(SEQUENCE, der(IP_ADDRESS, addressAndMask(range)))),
  ]
  return new Uint8Array(der(SEQUENCE, der(PERMITTED, ...subtrees)))
}

/** Tags of X.690; context tags are IMPLICIT in RFC 5280, so that they stand in place of the type's own. */
const SEQUENCE = 0x30
const PERMITTED = 0xa0
const DNS_NAME = 0x82
const IP_ADDRESS = 0x87

/** The address and then the mask of its leading bits: 8 or 32 bytes. */
function addressAndMask({ bytes, prefix }: AddressRange): Uint8Array {
  const mask = bytes.map((_, at) => 256 - 2 ** (8 - Math.min(8, Math.max(0, prefix - 8 * at))))
  return Uint8Array.from([...bytes, ...mask])
}

/** One value: tag, length, content. @throws RangeError for 64 KiB of content and more, which nothing here comes near */
function der(tag: number, ...contents: readonly Uint8Array[]): Uint8Array {
  const content = Buffer.concat(contents)
  if (content.length > 0xffff) throw new RangeError('Too long for a name constraint.')
  return Buffer.concat([Uint8Array.from([tag, ...lengthBytes(content.length)]), content])
}

/** The short form below 128, then one or two bytes behind the count of them. */
function lengthBytes(length: number): readonly number[] {
  if (length < 0x80) return [length]
  return length <= 0xff ? [0x81, length] : [0x82, length >> 8, length & 0xff]
}
