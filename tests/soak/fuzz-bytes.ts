import type { Random } from '../support/random.ts'

/** Bytes of a file that were turned, cut, doubled, filled or swapped in a few places. */
export function mutateBytes(bytes: Uint8Array, random: Random): Uint8Array<ArrayBuffer> {
  let next = new Uint8Array(bytes)
  for (let left = random.pick([1, 1, 2, 5, 40]); left > 0 && next.length > 0; left--)
    next = changed(next, random)
  return next
}

function changed(bytes: Uint8Array<ArrayBuffer>, random: Random): Uint8Array<ArrayBuffer> {
  // What a file says of itself stands at its beginning or end.
  const place = random.pick([1, 0.02, 1])
  const near = random.between(0, Math.max(0, Math.floor((bytes.length - 1) * place)))
  const at = random.next() < 0.2 ? bytes.length - 1 - near : near
  switch (random.between(0, 6)) {
    case 0:
    case 1:
      bytes[at] = bytes[at]! ^ (1 << random.between(0, 7))
      return bytes
    case 2:
      bytes[at] = random.pick([0, 0xff, 0x7f, 0x80, 0x0a])
      return bytes
    case 3:
      return bytes.slice(0, at)
    case 4:
      return new Uint8Array([...bytes.subarray(0, at), ...bytes.subarray(at, at + 64), ...bytes.subarray(at)])
    case 5:
      bytes.fill(random.pick([0, 0xff, 0x20]), at, at + random.between(1, 8))
      return bytes
    default:
      return new Uint8Array([...bytes.subarray(0, at), ...bytes.subarray(at + random.between(1, 100))])
  }
}

/** The same for a text of lines and cells, so that what comes out is mostly still one. */
export function mutateLines(text: string, random: Random, other: (cell: string) => string): string {
  const lines = text.split('\n')
  for (let left = random.pick([1, 1, 2, 4]); left > 0; left--) {
    const at = random.between(0, lines.length - 1)
    const line = lines[at] ?? ''
    const cells = line.split(/[,;]/)
    const cell = random.between(0, cells.length - 1)
    const kind = random.between(0, 6)
    if (kind === 0) lines.splice(at, 1)
    else if (kind === 1) lines.push(line)
    else if (kind === 2)
      lines[at] = line + random.pick(['"', ',', ';', '\t', '\r', '"""', '\u0000', '\uFEFF'])
    else lines[at] = cells.with(cell, other(cells[cell] ?? '')).join(line.includes(';') ? ';' : ',')
  }
  return lines.join('\n')
}
