import type { Refusal } from '../../domain/refusal.ts'
import { api, queryClient } from '../client.ts'

/** What went wrong with a report beyond the host's own words. */
export const troubleWith =
  (what: 'issued' | 'prepared') =>
  (error: unknown): Refusal => ({
    code: 'storage',
    message: `The report could not be ${what}.`,
    next: error instanceof Error ? error.message : 'Try again.',
  })

/** The session has ended on the host: this screen learns of it. */
export function seeSessionEnd({ code }: Refusal): void {
  if (code === 'not-allowed') void queryClient.invalidateQueries({ queryKey: api.session.queryKey() })
}

export const readReportsAgain = (): Promise<void> =>
  queryClient.invalidateQueries({ queryKey: api.ownerReports.queryKey() })
