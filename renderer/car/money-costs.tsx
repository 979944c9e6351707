import { useState } from 'react'
import type { Payer } from '../../domain/facts/shapes.ts'
import type { VisitId } from '../../domain/ids.ts'
import { moneyWords } from '../../domain/text/money-words.ts'
import type { CostView, MoneyView } from '../../domain/views/money-view.ts'
import type { CarView } from '../../domain/views/view-shapes.ts'
import { AcceptEstimateDialog } from '../parts/accept-estimate-dialog.tsx'
import { Button, WordButton } from '../parts/button.tsx'
import { TableFrame } from '../parts/table-frame.tsx'
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
        <p className="quiet">Nothing is estimated beside hours.</p>
      ) : (
        <CostTable money={money} onChange={(cost) => setDoing({ is: 'setting', cost })} />
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

function CostTable({
  money: { costs, currency },
  onChange,
}: {
  readonly money: MoneyView
  readonly onChange: (cost: CostView) => void
}) {
  return (
    <TableFrame label="Costs that are estimated">
      <table className="table">
        <thead>
          <tr>
            <th scope="col">what</th>
            <th scope="col">pays</th>
            <th scope="col" className="number">
              estimated
            </th>
            <th scope="col" className="number">
              spent on it
            </th>
            <th scope="col">accepted</th>
            <th scope="col">
              <span className="hidden-word">change</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {costs.map((cost) => (
            <tr key={cost.costId}>
              <th scope="row">
                {cost.name} <span className="quiet small">{whatWords(cost)}</span>
              </th>
              <td>{cost.payer}</td>
              <td className="number">
                {moneyWords(cost.amount, currency)}
                {cost.baseline !== null && cost.baseline !== cost.amount && (
                  <span className="quiet small"> first {moneyWords(cost.baseline, currency)}</span>
                )}
              </td>
              <td className={cost.spent > cost.amount ? 'number is-accent' : 'number'}>
                {moneyWords(cost.spent, currency)}
              </td>
              <td className={cost.accepted ? 'is-passed' : 'is-accent'}>
                {cost.accepted ? '✓ accepted' : 'waits'}
              </td>
              <td>
                {cost.variation === null && (
                  <WordButton onClick={() => onChange(cost)}>
                    change<span className="hidden-word"> {cost.name}</span>
                  </WordButton>
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </TableFrame>
  )
}

const whatWords = ({ kind, repair, variation, ended }: CostView): string =>
  [
    kind,
    repair,
    ...(variation === null ? [] : [`variation ‘${variation}’`]),
    ...(ended ? ['finished'] : []),
  ].join(', ')
