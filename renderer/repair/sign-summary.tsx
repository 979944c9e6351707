import { plural } from '../../domain/text/words.ts'
import type { HoldView } from '../../domain/views/shared-views.ts'
import type { RepairView } from '../../domain/views/view-shapes.ts'
import { useSending } from '../parts/photos/use-sending.ts'
import { MarkSign } from '../parts/gates/gate-strip.tsx'
import { Notice } from '../parts/form/notice.tsx'
import { ownPhotos } from '../parts/photos/photo-aim.ts'
import { Hold } from './hold.tsx'
import { useRepair } from './repair-context.ts'

/** What is signed for, line by line, and what still holds the gate. */
export function SignSummary({
  next,
  skillHolds,
}: {
  readonly next: NonNullable<RepairView['next']>
  /** Those of the people who did the work, once they are chosen. */
  readonly skillHolds: readonly HoldView[]
}) {
  const { view } = useRepair()
  const sending = ownPhotos(view.repair.id, useSending()).length
  const said = new Set(next.asks.filter(({ met }) => !met).map(({ key }) => key))
  const standing = next.holds.filter(({ released, subject }) => released === null && !said.has(subject))
  return (
    <>
      <p>
        <span className="strong">{view.repair.name}</span>, {view.car.name}
      </p>
      <ul className="lines">
        {next.asks.map((ask) => (
          <li key={ask.key} className="line">
            <span>
              <MarkSign mark={ask.met ? 'passed' : 'held'} /> {ask.words}
            </span>
            <span className={ask.met ? 'is-passed' : 'is-accent strong'}>{ask.have}</span>
          </li>
        ))}
      </ul>
      {sending > 0 && (
        <Notice>
          {plural('photo', sending)} still on the way; the gate may be signed once they have arrived.
        </Notice>
      )}
      {!next.mayPass && (
        <Notice kind="held">
          <p className="strong">Not yet{said.size > 0 && `: ${plural('thing', said.size)} to bring`}.</p>
          {standing.map((hold) => (
            <p key={`${hold.code}${hold.subject}`}>
              {hold.words} <span className="small">Cleared by {hold.clearedBy}.</span>
            </p>
          ))}
        </Notice>
      )}
      {skillHolds.map((hold) => (
        <Hold key={hold.subject} hold={hold} />
      ))}
    </>
  )
}
