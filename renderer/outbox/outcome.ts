import type { Refusal } from '../../domain/refusal.ts'

/** What became of a command. */
export type Outcome =
  | { readonly is: 'done'; readonly revision: number; readonly numbers: readonly number[] }
  | { readonly is: 'refused'; readonly refusal: Refusal }
  /** The command stays on this device and goes out as soon as it can. */
  | { readonly is: 'kept' }
  /** Not signed: what would be signed is kept on this device until the person signs it. */
  | { readonly is: 'prepared' }
  | { readonly is: 'cancelled' }

export type CommandAnswer =
  | { readonly ok: true; readonly revision: number; readonly numbers: readonly number[] }
  | { readonly ok: false; readonly refusal: Refusal }

export function answerToOutcome(answer: CommandAnswer): Outcome {
  return answer.ok
    ? { is: 'done', revision: answer.revision, numbers: answer.numbers }
    : { is: 'refused', refusal: answer.refusal }
}

export const notSigned: Refusal = {
  code: 'not-now',
  message: 'The host cannot be reached, so this may not have been signed.',
  next: 'No code is kept on this device: sign again when the connection is back. Signing twice does no harm.',
}

export const brokenAnswer = (error: unknown): Refusal => ({
  code: 'storage',
  message: `The host gave an answer that this screen does not understand${because(error)}.`,
  next: 'Reload the page and try again; if it stays so, look at the window where Panelwright was started.',
})

export const cannotKeep = (error: unknown): Refusal =>
  isFull(error)
    ? {
        code: 'storage',
        message: 'The space that this device gives to Panelwright is full.',
        next: 'What was kept before is safe. Go where the host can be reached, so that it is sent, or free some space on the device; then enter this again.',
      }
    : {
        code: 'storage',
        message: `This device cannot keep what you enter${because(error)}.`,
        next: 'Free some space on it, or allow this address to store data, and try again.',
      }

/** By name: browsers throw it as a DOMException, some in an error of their own. */
const isFull = (error: unknown): boolean => error instanceof Error && error.name === 'QuotaExceededError'

/** For what was never sent, because what it is about was refused. */
export const refusedTogether = ({ code, message }: Refusal): Refusal => ({
  code,
  message: `It rests on what the host refused: ${message}`,
  next: 'Send both again once that is put right, or put both aside.',
})

const because = (error: unknown): string =>
  error instanceof Error && error.message !== '' ? `: ${error.message}` : ''
