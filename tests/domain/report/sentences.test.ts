import { describe, expect, it } from 'vitest'
import { counted, english } from '../../../domain/language/english.ts'
import { clause, ended, sentence } from '../../../domain/report/sentences.ts'

describe('what people typed, as a sentence', () => {
  it.each([
    ['clean it.,', 'Clean it.'],
    ['  clean  it , then\tlook again ,', 'Clean it, then look again.'],
    ['one,, two ;. three..', 'One, two. three.'],
    ['CLEAN IT AT ONCE!', 'Clean it at once!'],
    ['USE MIG', 'USE MIG.'],
    ['wait ...', 'Wait…'],
    ['he said "stop."', 'He said "stop."'],
    ['(see above)', '(see above).'],
    ['- the flange\n- the seam;\n- the drain.', 'The flange; the seam; the drain.'],
    ['1. the flange\n2. the seam', 'The flange; the seam.'],
    ['the flange is bad\nso is the seam', 'The flange is bad; so is the seam.'],
    ['The flange is bad.\nSo is the seam.', 'The flange is bad. So is the seam.'],
    ['1.5 mm at 10:30, A.M.', '1.5 mm at 10:30, A.M.'],
    [' .,; ', ''],
    ['', ''],
  ])('%j is told as %j', (typed, told) => {
    expect(sentence(typed)).toBe(told)
    expect(sentence(told)).toBe(told)
  })

  it('begins small inside another, but for what is no word', () => {
    expect(clause('A new flange.', 'small')).toBe('a new flange')
    expect(clause('Leave it', 'small')).toBe('leave it')
    expect(clause('MIG only', 'small')).toBe('MIG only')
    expect(clause('A-post first', 'small')).toBe('A-post first')
    expect(clause('I said so', 'small')).toBe('I said so')
    expect(clause('Leave it')).toBe('Leave it')
  })

  it('gets a stop only where it has no end', () => {
    expect(ended('now')).toBe('now.')
    expect(ended('now!')).toBe('now!')
    expect(ended('„Jetzt.“')).toBe('„Jetzt.“')
    expect(ended('')).toBe('')
  })
})

describe('lists and counts in a letter', () => {
  it('keep parts with commas apart', () => {
    expect(english.figures.list(['a', 'b', 'c'])).toBe('a, b and c')
    expect(english.figures.list(['Sill, left', 'Scuttle'])).toBe('Sill, left, and Scuttle')
    expect(english.figures.list(['Sill, left', 'b', 'c'])).toBe('Sill, left; b; and c')
  })

  it('are said in words up to twelve', () => {
    expect(counted('step', 1)).toBe('one step')
    expect(counted('step', 12)).toBe('twelve steps')
    expect(counted('step', 13)).toBe('13 steps')
    expect(counted('person', 2, 'people')).toBe('two people')
  })
})
