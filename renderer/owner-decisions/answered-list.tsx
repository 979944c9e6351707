import { useState } from 'react'
import type { VariationView } from '../../domain/views/view-shapes.ts'
import { WordButton } from '../parts/form/button.tsx'
import { Dialog } from '../parts/form/dialog.tsx'
import { VariationCard } from '../parts/variation/variation-card.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import { signedHours } from '../parts/hours/signed-hours.ts'
import styles from './owner-decisions.module.css'

const SHOWN_AT_FIRST = 12

/** What was answered before, the latest first; each opens with its reasons and photos. */
export function AnsweredList({ answered }: { readonly answered: readonly VariationView[] }) {
  const when = useWhen()
  const [isAll, setIsAll] = useState(false)
  const [shownId, setShownId] = useState<string | null>(null)
  const shown = answered.find(({ id }) => id === shownId)
  return (
    <section className="stack-tight">
      <h3>Answered before</h3>
      {answered.length === 0 && <p className="quiet">Answers are kept here, with how they came.</p>}
      <ul className="lines">
        {(isAll ? answered : answered.slice(0, SHOWN_AT_FIRST)).map((variation) => (
          <li key={variation.id} className={styles.answer}>
            <span>
              <WordButton onClick={() => setShownId(variation.id)}>{variation.title}</WordButton>
              <br />
              <span className="small quiet">
                {variation.carName}; {outcomeWords(variation)}
                {variation.decided !== null &&
                  `, ${when.day(variation.decided)}${variation.payer === 'workshop' ? '' : ` by ${variation.decidedHow}`}`}
              </span>
            </span>
            <Counted variation={variation} />
          </li>
        ))}
      </ul>
      {answered.length > SHOWN_AT_FIRST && !isAll && (
        <WordButton onClick={() => setIsAll(true)}>
          show {answered.length - SHOWN_AT_FIRST} more<span className="hidden-word">: Answered before</span>
        </WordButton>
      )}
      {shown !== undefined && (
        <Dialog title={shown.carName} isOpen onClose={() => setShownId(null)} size="wide">
          <VariationCard variation={shown} isCarNamed />
        </Dialog>
      )}
    </section>
  )
}

/** The hours that were accepted, or those that were asked for where none of them will be worked. */
function Counted({ variation }: { readonly variation: VariationView }) {
  const asked = <span className="small quiet">asked {signedHours(variation.asked.likely)}</span>
  if (isNotDone(variation)) return <span className={styles.counted}>{asked}</span>
  return (
    <span className={styles.counted}>
      <span className="number strong">{signedHours(variation.hours)}</span>
      {variation.changed && asked}
    </span>
  )
}

const isNotDone = ({ status, closedAsFound }: VariationView): boolean =>
  closedAsFound || status === 'stopped' || status === 'less work'

function outcomeWords({ status, closedAsFound, changed }: VariationView): string {
  if (closedAsFound) return 'declined, closed as found'
  if (changed) return 'accepted with changes'
  return status === 'workshop pays' || status === 'less work' ? `declined, ${status}` : status
}
