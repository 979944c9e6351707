import type { HoldView } from '../../../domain/views/shared-views.ts'
import { Notice } from '../form/notice.tsx'

/** Why a gate cannot be passed yet, in words, and who can clear it. A released hold stays readable with its reason. */
export function HoldNote({ hold, action }: { readonly hold: HoldView; readonly action?: React.ReactNode }) {
  if (hold.released !== null) {
    return (
      <Notice>
        <p>
          <span className="strong">Released</span> by {hold.released.by}: {hold.released.reason}
        </p>
        <p className="quiet small">It was held: {hold.words}</p>
      </Notice>
    )
  }
  return (
    <Notice kind="held">
      <p>
        <span className="strong">Held:</span> {hold.words}
      </p>
      <p className="small">{clearedWords(hold)}</p>
      {action}
    </Notice>
  )
}

/** The moment up to which it holds stands in its words already. */
function clearedWords({ until, clearedBy }: HoldView): string {
  if (clearedBy === 'time') return 'It ends by itself.'
  return until === null ? `Cleared by ${clearedBy}.` : `Cleared by ${clearedBy} then.`
}
