import { z } from 'zod'

const LEAST = 12

/** Someone who has the disk can try as long as they like. */
export const passphraseSchema = z
  .string()
  .min(LEAST, `Give at least ${LEAST} characters: several words are easy to keep in mind.`)
  .max(200, 'Give 200 characters at most.')
