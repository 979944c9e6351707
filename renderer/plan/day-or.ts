/** A day in words, or that it is not known. */
export const dayOr = (at: number | null, day: (at: number) => string): string =>
  at === null ? 'not known' : day(at)
