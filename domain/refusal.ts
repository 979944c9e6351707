/** Closed list: screens and tests decide by the code, people read the message and the next step. */
export const REFUSAL_CODES = [
  'bad-input',
  'unknown',
  'already',
  'held',
  'not-allowed',
  'wrong-code',
  'locked',
  'not-paired',
  'same-id-other-content',
  'changed-meanwhile',
  'clash',
  'circle',
  'no-order-of-work',
  'overlap',
  'absurd-hours',
  'needed-later',
  'under-cover',
  'not-now',
  'photo',
  'storage',
] as const

export type RefusalCode = (typeof REFUSAL_CODES)[number]

export interface Refusal {
  readonly code: RefusalCode
  /** What is wrong, in the workshop's words. */
  readonly message: string
  /** What the person can do now. */
  readonly next: string
}

export type Result<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly refusal: Refusal }

export const ok = <T>(value: T): Result<T> => ({ ok: true, value })

export const refuse = (
  code: RefusalCode,
  message: string,
  next: string,
): { ok: false; refusal: Refusal } => ({
  ok: false,
  refusal: { code, message, next },
})

/** What is wrong and what can be done about it, in one line. */
export const refusalWords = ({ message, next }: Pick<Refusal, 'message' | 'next'>): string =>
  `${message} ${next}`
