/**
 * The words of a text as they are looked for: letters and digits alone, without case and without marks, so that 'muller'
 * finds 'Müller'. Compatibility decomposition (Unicode Standard Annex 15, form NFKD) takes marks and ligatures apart; the few
 * letters that it leaves whole are written as people do whose keyboard has none of them.
 */
export function foldWords(text: string): readonly string[] {
  const plain = text.normalize('NFKD').toLowerCase().replaceAll(/\p{M}/gu, '')
  return plain.replaceAll(/[ßæœøðþłđıς]/g, (letter) => WHOLE[letter] ?? letter).match(/[\p{L}\p{N}]+/gu) ?? []
}

const WHOLE: Readonly<Record<string, string>> = {
  ß: 'ss',
  æ: 'ae',
  œ: 'oe',
  ø: 'o',
  ð: 'd',
  þ: 'th',
  ł: 'l',
  đ: 'd',
  ı: 'i',
  ς: 'σ',
}

/** 3: it is all that was asked for; 2: has every word whole; 1: has words that begin so; null: lacks one. */
export type Fit = 1 | 2 | 3

/** How well words answer to those that were asked for; both are folded, and at least one is asked for. */
export function fitOf(asked: readonly string[], words: readonly string[]): Fit | null {
  if (!asked.every((each) => words.some((word) => word.startsWith(each)))) return null
  if (asked.length === words.length && asked.every((each, index) => words[index] === each)) return 3
  return asked.every((each) => words.includes(each)) ? 2 : 1
}
