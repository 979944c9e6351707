import { useState } from 'react'
import type { Payer } from '../../domain/facts/shapes.ts'
import { hours, moreOrLess } from '../../domain/text/words.ts'
import type { PayerSumView } from '../../domain/views/estimate-shapes.ts'
import type { CarView } from '../../domain/views/view-shapes.ts'
import { AcceptEstimateDialog } from '../parts/hours/accept-estimate-dialog.tsx'
import { Button } from '../parts/form/button.tsx'

/** Who pays for how much of it, and what each has still to accept. */
export function EstimatePayers({
  view,
  payers,
}: {
  readonly view: CarView
  readonly payers: readonly PayerSumView[]
}) {
  const [payer, setPayer] = useState<Payer | null>(null)
  return (
    <section className="stack-tight">
      <h3>Who pays</h3>
      {payers.length === 0 && <p className="quiet">No hours are put to a payer yet.</p>}
      <ul className="lines">
        {payers.map((each) => (
          <li key={each.payer} className="line">
            <span>
              <span className="strong">The {each.payer}</span>: {sumWords(each)}
            </span>
            {each.waitingLines > 0 && (
              <Button onClick={() => setPayer(each.payer)}>
                The {each.payer} accepts {hours(waitingIn(view, each.payer))}
              </Button>
            )}
          </li>
        ))}
      </ul>
      {payer !== null && <AcceptEstimateDialog view={view} payer={payer} onClose={() => setPayer(null)} />}
    </section>
  )
}

function sumWords({ accepted, waiting, asked }: PayerSumView): string {
  const more = asked === 0 ? '' : `; variations of ${moreOrLess(asked, hours)} wait`
  return waiting === 0
    ? `${hours(accepted)}, all accepted ✓${more}`
    : `${hours(accepted)} accepted, ${hours(waiting)} wait${more}`
}

const waitingIn = ({ estimate }: CarView, payer: Payer): number =>
  estimate
    .filter((line) => line.payer === payer && !line.accepted)
    .reduce((sum, { agreed }) => sum + agreed, 0)
