import { SCREENS } from '../../domain/screens.ts'
import { fitOf, foldWords } from '../../domain/text/fold-words.ts'
import { SHEET_WORDS, WORKSHOP_SHEETS, type WorkshopSheet } from '../parts/sheets/workshop-sheets.ts'

export interface FoundScreen {
  readonly to: string
  readonly sheet: WorkshopSheet | null
  readonly words: string
}

/** Screens and the sheets of the workshop whose names have every word, whole or as a beginning; known without the host. */
export function foundScreens(text: string): readonly FoundScreen[] {
  const words = foldWords(text)
  if (words.length === 0) return []
  return PLACES.filter(({ words: name }) => fitOf(words, foldWords(name)) !== null)
}

const PLACES: readonly FoundScreen[] = [
  ...SCREENS.map(({ to, words }) => ({ to, sheet: null, words })),
  ...WORKSHOP_SHEETS.map((sheet) => ({
    to: '/workshop',
    sheet,
    words: `Workshop, ${SHEET_WORDS[sheet]}`,
  })),
  { to: '/card', sheet: null, words: 'Photos from a card' },
  { to: '/variance/were-we-right', sheet: null, words: 'Were we right' },
  { to: '/help', sheet: null, words: 'Help' },
]
