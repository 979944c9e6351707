import type { Refusal } from '../../domain/refusal.ts'
import { api, isHostAway, queryClient } from '../client.ts'
import { hostAway } from '../parts/frame/host-away.ts'

/** A call for a report that did not come through, as people are told. */
export function troubleToRefusal(error: unknown, what: 'issued' | 'prepared'): Refusal {
  return isHostAway(error)
    ? hostAway(
        what === 'issued'
          ? 'Try again when the connection is back; the report is issued only once.'
          : undefined,
      )
    : {
        code: 'storage',
        message: `The report could not be ${what}.`,
        next: error instanceof Error ? error.message : 'Try again.',
      }
}

/** The session has ended on the host: this screen learns of it. */
export function seeSessionEnd({ code }: Refusal): void {
  if (code === 'not-allowed') void queryClient.invalidateQueries({ queryKey: api.session.queryKey() })
}

export const readReportsAgain = (): Promise<void> =>
  queryClient.invalidateQueries({ queryKey: api.ownerReports.queryKey() })
