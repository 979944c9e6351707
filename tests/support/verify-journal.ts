import { createJournalVerifier, type VerifiedChain } from '../../db/journal-verifier.ts'
import type { Result } from '../../domain/refusal.ts'
import type { CarFileLine } from '../../domain/report/car-file-shapes.ts'

/** What a whole journal comes to, or the first line of it that is not what it must be. */
export function verifyJournal(lines: Iterable<CarFileLine>): Result<VerifiedChain> {
  const verifier = createJournalVerifier()
  for (const line of lines) {
    const taken = verifier.take(line)
    if (!taken.ok) return taken
  }
  return verifier.finish()
}
