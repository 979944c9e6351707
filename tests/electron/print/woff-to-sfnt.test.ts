import { readFile } from 'node:fs/promises'
import { expect, test } from 'vitest'
import { woffToSfnt } from '../../../electron/print/woff-to-sfnt.ts'

const archivo = new URL(
  '../../../node_modules/@fontsource/archivo/files/archivo-latin-400-normal.woff',
  import.meta.url,
)

/** OpenType 1.9, "Calculating checksums": the sum of the table's 32-bit words, and for 'head' without its own field. */
function checksum(table: Buffer, tag: string): number {
  let sum = 0
  for (let at = 0; at < table.length; at += 4)
    if (tag !== 'head' || at !== 8)
      sum = (sum + Buffer.concat([table, Buffer.alloc(4)]).readUInt32BE(at)) >>> 0
  return sum
}

test('an unpacked font holds every table, with the checksum that the font was made with', async () => {
  const woff = await readFile(archivo)
  const font = woffToSfnt(woff)
  // The header of the WOFF file says how long the font is that it was made from.
  expect(font.length).toBe(woff.readUInt32BE(16))
  expect(font.readUInt32BE(0)).toBe(0x00010000)
  const count = font.readUInt16BE(4)
  const tags = Array.from({ length: count }, (_, index) => {
    const at = 12 + index * 16
    const tag = font.toString('latin1', at, at + 4)
    const table = font.subarray(
      font.readUInt32BE(at + 8),
      font.readUInt32BE(at + 8) + font.readUInt32BE(at + 12),
    )
    expect([tag, checksum(table, tag)]).toEqual([tag, font.readUInt32BE(at + 4)])
    return tag
  })
  expect(tags).toEqual(expect.arrayContaining(['cmap', 'glyf', 'head', 'hmtx', 'loca', 'name']))
})

test('other bytes are refused', () => {
  expect(() => woffToSfnt(Buffer.from('wOF2 and something'))).toThrow('no WOFF file')
})
