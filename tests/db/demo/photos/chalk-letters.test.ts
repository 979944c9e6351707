import { describe, expect, it } from 'vitest'
import { textPath, textWidth } from '../../../../db/demo/photos/chalk-letters.ts'
import { createRandom } from '../../../../db/demo/photos/random.ts'

const write = (text: string) => textPath(text, 10, 20, 40, createRandom('hand'))

/** The unsteady hand draws the same shake for the same seed, so equal strokes give equal paths. */
describe('textPath', () => {
  it('writes small letters as capitals and accented ones without their accents', () => {
    expect(write('Éclair')).toBe(write('ECLAIR'))
    expect(write('A')).not.toBe(write('B'))
  })

  it('has strokes of its own for every letter, figure and sign that captions use', () => {
    const letters = Array.from("ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-.,:/()+'?!")
    const box = write('\u{1F527}')
    expect(letters.filter((letter) => write(letter) === box || write(letter) === '')).toEqual([])
    // O and 0 are written alike.
    expect(new Set(letters.map(write)).size).toBe(letters.length - 1)
  })

  it('writes nothing for nothing and keeps within its width', () => {
    expect(write('')).toBe('')
    const across = [...write('SHELL 0417').matchAll(/[ML]([\d.]+) /g)].map((match) => Number(match[1]))
    expect(Math.max(...across)).toBeLessThan(10 + textWidth('SHELL 0417', 40) + 4)
    expect(Math.min(...across)).toBeGreaterThan(6)
  })
})
