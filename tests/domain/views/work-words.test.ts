import { describe, expect, it } from 'vitest'
import { toBringWords } from '../../../domain/views/work-words.ts'

describe('what work still asks for', () => {
  it('is said in full when it is one thing', () => {
    expect(toBringWords([])).toBe('')
    expect(toBringWords(['No photo before cutting; photograph it.'])).toBe(
      'No photo before cutting; photograph it.',
    )
  })

  it('has no stop before the comma when there is more', () => {
    const first = 'No photo before cutting; photograph it.'
    expect(toBringWords([first, 'b'])).toBe(
      'No photo before cutting; photograph it, and 1 thing more to bring',
    )
    expect(toBringWords([first, 'b', 'c'])).toBe(
      'No photo before cutting; photograph it, and 2 things more to bring',
    )
  })
})
