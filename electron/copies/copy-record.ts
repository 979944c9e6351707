import type { CopyRecord } from '../../domain/copies/copy-settings.ts'
import type { Result } from '../../domain/refusal.ts'
import type { CopyMade } from './make-copy.ts'

/** What is remembered of a copy. @param at when it was begun, epoch milliseconds */
export function recordOf(result: Result<CopyMade>, folder: string, at: number): CopyRecord {
  if (!result.ok) {
    const { message, next } = result.refusal
    return { good: null, tried: { at, problem: `${message} ${next}`, warnings: [] } }
  }
  const { head, stamp, warnings } = result.value
  const good = head.isWhole ? { at, number: head.number, folder, stamp } : null
  return { good, tried: { at, problem: null, warnings: [...warnings] } }
}
