import type { AttentionGroup } from '../../domain/views/attention-shapes.ts'
import { AttentionList } from '../parts/gates/attention-list.tsx'

/** What goes astray in the workshop and can still be put right today. */
export function AttentionToday({ groups }: { readonly groups: readonly AttentionGroup[] }) {
  return (
    <section className="stack-tight" aria-label="Needs you today">
      <h2 className="minor">Needs you today</h2>
      {groups.length === 0 ? (
        <p className="quiet">
          All is as agreed: clocks stopped, hours authorised, no gate past its 80 % mark. What goes another
          way will stand here.
        </p>
      ) : (
        <AttentionList groups={groups} />
      )}
    </section>
  )
}
