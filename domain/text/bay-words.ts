import { capital, joinWords } from './words.ts'

/** A bay that has only a number is called one. */
export const bayWords = (name: string): string => (/\p{L}/u.test(name) ? name : `bay ${name}`)

/** 'Bays 3, 4 and 6 are empty.', 'Jig is empty.'; at least one name. */
export function emptyBayWords(names: readonly string[]): string {
  if (names.length === 1) return `${names.map(capitalBay).join('')} is empty.`
  const numbers = names.map((name) => NUMBERED.exec(name)?.[1])
  const called = numbers.every((number) => number !== undefined)
    ? `Bays ${joinWords(numbers)}`
    : joinWords(names.map(capitalBay))
  return `${called} are empty.`
}

/** 'Bay 3', or the number alone. */
const NUMBERED = /^(?:bay )?(\d+)$/i

const capitalBay = (name: string): string => capital(bayWords(name))
