/** A fresh id of one of our kinds (a UUID): `newId<CarId>()`. Tablets on plain HTTP have no `crypto.randomUUID`. */
export function newId<Id extends string>(): Id {
  return (typeof crypto.randomUUID === 'function' ? crypto.randomUUID() : bytesToUuid(randomBytes())) as Id
}

function randomBytes(): Uint8Array {
  return crypto.getRandomValues(new Uint8Array(16))
}

/** RFC 9562 version 4: four bits of version, two of variant, the rest random. */
export function bytesToUuid(bytes: Uint8Array): string {
  const hex = [...bytes].map((byte, index) => {
    const fixed = index === 6 ? (byte & 0x0f) | 0x40 : index === 8 ? (byte & 0x3f) | 0x80 : byte
    return fixed.toString(16).padStart(2, '0')
  })
  return [hex.slice(0, 4), hex.slice(4, 6), hex.slice(6, 8), hex.slice(8, 10), hex.slice(10)]
    .map((part) => part.join(''))
    .join('-')
}
