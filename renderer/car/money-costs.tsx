import { useState } from 'react'
import type { Payer } from '../../domain/facts/shapes.ts'
import type { VisitId } from '../../domain/ids.ts'
import { moneyWords } from '../../domain/text/money-words.ts'
import type { CostView, MoneyView } from '../../domain/views/money-view.ts'
import type { CarView } from '../../domain/views/view-shapes.ts'
import { AcceptEstimateDialog } from '../parts/hours/accept-estimate-dialog.tsx'
import { Button, WordButton } from '../parts/form/button.tsx'
import styles from './money.module.css'
import { MoneyCostDialog } from './money-cost-dialog.tsx'

type Doing =
  | { readonly is: 'setting'; readonly cost: CostView | null }
  | { readonly is: 'accepting'; readonly payer: Payer }

/** What parts, materials and outside work are expected to cost, line by line, and whether their payer has accepted it. */
export function MoneyCosts({
  view,
  money,
  visitId,
}: {
  readonly view: CarView
  readonly money: MoneyView
  readonly visitId: VisitId
}) {
  const [doing, setDoing] = useState<Doing | null>(null)
  const { costs, currency } = money
  const close = () => setDoing(null)
  return (
    <section className="stack-tight">
      <div className="spread">
        <h3>Parts, materials and outside work</h3>
        <span className="row">
          {waitingBy(costs).map(({ payer, amount }) => (
            <Button key={payer} onClick={() => setDoing({ is: 'accepting', payer })}>
              The {payer} accepts {moneyWords(amount, currency)}
            </Button>
          ))}
          <Button
            kind={costs.length === 0 ? 'main' : 'plain'}
            onClick={() => setDoing({ is: 'setting', cost: null })}
          >
            Add a cost
          </Button>
        </span>
      </div>
      {costs.length === 0 ? (
        <p className="quiet">
          Nothing is estimated beside hours. Add what a part, a material or the work of another firm is
          expected to cost; its payer accepts it with the hours.
        </p>
      ) : (
        <ul className="lines">
          {costs.map((cost) => (
            <CostLine
              key={cost.costId}
              cost={cost}
              currency={currency}
              onChange={() => setDoing({ is: 'setting', cost })}
            />
          ))}
        </ul>
      )}
      {doing?.is === 'setting' && (
        <MoneyCostDialog
          money={money}
          visitId={visitId}
          seen={view.header.revision}
          cost={doing.cost}
          onClose={close}
        />
      )}
      {doing?.is === 'accepting' && <AcceptEstimateDialog view={view} payer={doing.payer} onClose={close} />}
    </section>
  )
}

/** Of the estimate: what a variation asks for is answered with it. */
function waitingBy(
  costs: readonly CostView[],
): readonly { readonly payer: Payer; readonly amount: number }[] {
  const waiting = costs.filter(({ accepted, variation }) => !accepted && variation === null)
  return [...Map.groupBy(waiting, ({ payer }) => payer)].map(([payer, own]) => ({
    payer,
    amount: own.reduce((sum, { amount }) => sum + amount, 0),
  }))
}

function CostLine({
  cost,
  currency,
  onChange,
}: {
  readonly cost: CostView
  readonly currency: string
  readonly onChange: () => void
}) {
  const { amount, spent, baseline } = cost
  return (
    <li className={styles.amountLine}>
      <span>
        <span className="strong">{cost.name}</span> <span className="quiet small">{whatWords(cost)}</span>
      </span>
      <span>
        {cost.payer}{' '}
        <span className={cost.accepted ? 'is-passed' : 'is-accent'}>
          {cost.accepted ? '✓ accepted' : 'waits'}
        </span>
      </span>
      <span className="number">
        <span className={spent > amount ? 'is-accent' : ''}>{moneyWords(spent, currency)}</span> spent of{' '}
        {moneyWords(amount, currency)}
        {baseline !== null && baseline !== amount && (
          <span className="quiet small"> first {moneyWords(baseline, currency)}</span>
        )}
      </span>
      <span className={styles.act}>
        {cost.variation === null && (
          <WordButton onClick={onChange}>
            change<span className="hidden-word"> {cost.name}</span>
          </WordButton>
        )}
      </span>
    </li>
  )
}

const whatWords = ({ kind, repair, variation, ended }: CostView): string =>
  [
    kind,
    repair,
    ...(variation === null ? [] : [`variation ‘${variation}’`]),
    ...(ended ? ['finished'] : []),
  ].join(', ')
