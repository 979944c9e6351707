import { expect, test } from 'vitest'
import { qrPath } from '../../renderer/workshop/qr-path.ts'

/** Dark modules as 'x y', the quiet zone included. */
const darkOf = (path: string) =>
  new Set([...path.matchAll(/M(\d+) (\d+)h1v1h-1z/g)].map(([, x, y]) => `${x} ${y}`))

/** ISO/IEC 18004, 6.3.3: 7 × 7 dark, in it 5 × 5 light, in it 3 × 3 dark. */
const finder = ['#######', '#     #', '# ### #', '# ### #', '# ### #', '#     #', '#######']

test('a QR code has its three finder patterns behind a quiet zone of four modules, and a dark module of its own', () => {
  // Eleven characters at level M fit version 1, of 21 modules a side (ISO/IEC 18004, table 7).
  const { size, path } = qrPath('HELLO WORLD')
  expect(size).toBe(21 + 2 * 4)
  const dark = darkOf(path)
  const rowAt = (x: number, y: number) =>
    Array.from({ length: 7 }, (_, more) => (dark.has(`${x + more} ${y}`) ? '#' : ' ')).join('')
  for (const [x, y] of [
    [4, 4],
    [4 + 14, 4],
    [4, 4 + 14],
  ] as const)
    expect(finder.map((_, more) => rowAt(x, y + more))).toEqual(finder)
  const edges = [...dark].flatMap((place) => place.split(' ').map(Number))
  expect(Math.min(...edges)).toBe(4)
  expect(Math.max(...edges)).toBe(size - 5)
  // ISO/IEC 18004, 7.9.1: the module at row 4 × version + 9, column 8 is always dark.
  expect(dark.has(`${4 + 8} ${4 + 13}`)).toBe(true)
})

test('a longer text takes more modules and leaves none outside', () => {
  const { size, path } = qrPath('https://192.168.1.20:47832/pair?code=4F7KM2QX')
  expect(size).toBeGreaterThan(29)
  for (const place of darkOf(path))
    for (const at of place.split(' ')) expect(Number(at)).toBeLessThan(size - 4)
})
