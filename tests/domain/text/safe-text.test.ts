import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  cleanLine,
  cleanText,
  nameSchema,
  noteSchema,
  optionalNoteSchema,
  visibleLength,
} from '../../../domain/text/safe-text.ts'

const family = '👨‍👩‍👧‍👦'
const problem = (schema: typeof nameSchema, text: unknown): string | undefined =>
  schema.safeParse(text).error?.issues[0]?.message

describe('text that people type', () => {
  test('an emoji with joiners, skin tone or flag counts as one character', () => {
    expect(visibleLength(`${family}👍🏽🇬🇧é`)).toBe(4)
  })

  test('a name may be 120 family emoji long and not 121', () => {
    expect(nameSchema.parse(family.repeat(120))).toBe(family.repeat(120))
    expect(problem(nameSchema, family.repeat(121))).toBe(
      'Use at most 120 characters; put the rest into a note.',
    )
  })

  test('a note may be 10,000 characters long and not 10,001', () => {
    expect(noteSchema.parse('x'.repeat(10_000))).toHaveLength(10_000)
    expect(problem(noteSchema, 'x'.repeat(10_001))).toContain('at most 10,000 characters')
  })

  test('a thousand accents on one letter are not one character of a name', () => {
    const stacked = `a${'\u0301'.repeat(5_000)}`
    expect(visibleLength(stacked)).toBe(1)
    expect(problem(nameSchema, stacked)).toContain('at most 120 characters')
  })

  test('markup is kept as plain text', () => {
    const markup = '<b onclick="x()">sill & pillar</b> {{7*7}} =1+1'
    expect(nameSchema.parse(markup)).toBe(markup)
    expect(noteSchema.parse(markup)).toBe(markup)
  })

  test('a name is one trimmed line', () => {
    expect(nameSchema.parse('  left\tsill,\r\n outer\u2028half ')).toBe('left sill, outer half')
  })

  test('a note keeps its lines and tabs, with LF line ends', () => {
    expect(noteSchema.parse('  one\r\ntwo\rthree\u2029four\tfive\n')).toBe('one\ntwo\nthree\nfour\tfive')
  })

  test('control characters, direction overrides and byte order marks are taken out', () => {
    expect(cleanText('\uFEFFsi\u0000ll\u0007 \u202Egnp.exe\u202C\u009B31m')).toBe('sill gnp.exe31m')
  })

  test('letters joined by a control character compose when it is gone', () => {
    expect(cleanText('e\u0007\u0301')).toBe('é')
  })

  test('a lone surrogate is replaced, so that the text has a UTF-8 form', () => {
    expect(cleanText('bay \uD83D')).toBe('bay \uFFFD')
  })

  test('joiners stay where emoji and scripts need them', () => {
    expect(cleanLine(family)).toBe(family)
  })

  test.each(['', '   ', '\n\t', '\u200B\u2060', '\u3164', '\u0000'])('%j is no name and no note', (text) => {
    expect(problem(nameSchema, text)).toBe('Give a name.')
    expect(problem(noteSchema, text)).toBe('Write a few words here.')
  })

  test('an optional note may be empty', () => {
    expect(optionalNoteSchema.parse('  ')).toBe('')
  })

  test('what is not text is refused', () => {
    expect(problem(nameSchema, 7)).toBe('Give a name.')
    expect(problem(noteSchema, null)).toBe('Give text.')
  })

  test('cleaning twice is cleaning once', () => {
    const anything = fc.string({ unit: 'binary', maxLength: 40 })
    const awkward = fc
      .array(
        fc.constantFrom(
          '\u0000',
          '\r',
          '\n',
          '\u2028',
          '\uD800',
          '\u0301',
          'e',
          ' ',
          '\uFEFF',
          '\u202E',
          '\u1160',
        ),
      )
      .map((parts) => parts.join(''))
    fc.assert(
      fc.property(fc.oneof(anything, awkward), (text) => {
        expect(cleanText(cleanText(text))).toBe(cleanText(text))
        expect(cleanLine(cleanLine(text))).toBe(cleanLine(text))
        expect(cleanLine(text)).not.toMatch(/[\n\r\t]/)
      }),
    )
  })
})
