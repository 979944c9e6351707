import type { Role } from '../facts/workshop-facts.ts'

/** Digits of a person's code. */
export const LEAST_DIGITS = 4
export const LEAST_DIGITS_OF_MANAGER = 6
export const MOST_DIGITS = 12

/** Digits that the code of somebody with these roles has at least. */
export const leastDigits = (roles: readonly Role[]): number =>
  roles.includes('manager') ? LEAST_DIGITS_OF_MANAGER : LEAST_DIGITS
