import { useState } from 'react'
import type { CarId, VisitId } from '../../domain/ids.ts'
import { moneyWords } from '../../domain/text/money-words.ts'
import type { MoneyView, SpendingView } from '../../domain/views/money-view.ts'
import { Button, WordButton } from '../parts/button.tsx'
import { ReasonDialog } from '../parts/reason-dialog.tsx'
import { TableFrame } from '../parts/table-frame.tsx'
import { useCommand } from '../parts/use-command.ts'
import { useWhen } from '../parts/when.tsx'
import { MoneySpendDialog } from './money-spend-dialog.tsx'

/** Every bill and every take from the shelf of this visit; what never happened is voided. */
export function MoneySpendings({ money, visitId }: { readonly money: MoneyView; readonly visitId: VisitId }) {
  const [isEntering, setIsEntering] = useState(false)
  const [voiding, setVoiding] = useState<SpendingView | null>(null)
  return (
    <section className="stack-tight">
      <div className="spread">
        <h3>Spent beside hours</h3>
        <Button onClick={() => setIsEntering(true)}>Enter what was spent</Button>
      </div>
      {money.spendings.length === 0 ? (
        <p className="quiet">No bill and nothing from the shelf is entered yet.</p>
      ) : (
        <SpendingTable money={money} onVoid={setVoiding} />
      )}
      {isEntering && (
        <MoneySpendDialog money={money} visitId={visitId} onClose={() => setIsEntering(false)} />
      )}
      {voiding !== null && (
        <VoidDialog
          carId={money.carId}
          spending={voiding}
          amount={moneyWords(voiding.amount, money.currency)}
          onClose={() => setVoiding(null)}
        />
      )}
    </section>
  )
}

function SpendingTable({
  money: { spendings, currency },
  onVoid,
}: {
  readonly money: MoneyView
  readonly onVoid: (spending: SpendingView) => void
}) {
  const when = useWhen()
  return (
    <TableFrame label="What was spent beside hours">
      <table className="table">
        <thead>
          <tr>
            <th scope="col">what</th>
            <th scope="col">day</th>
            <th scope="col">pays</th>
            <th scope="col">agreed as</th>
            <th scope="col" className="number">
              amount
            </th>
            <th scope="col">
              <span className="hidden-word">void</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {spendings.map((each) => (
            <tr key={each.spendingId}>
              <th scope="row">
                {each.name}{' '}
                <span className="quiet small">
                  {each.kind}, {each.repair}
                </span>
              </th>
              <td>{when.day(each.date)}</td>
              <td>{each.payer}</td>
              <td>{each.costName ?? <span className="is-accent">not agreed</span>}</td>
              <td className="number">{moneyWords(each.amount, currency)}</td>
              <td>
                <WordButton onClick={() => onVoid(each)}>
                  void<span className="hidden-word"> {each.name}</span>
                </WordButton>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </TableFrame>
  )
}

function VoidDialog({
  carId,
  spending,
  amount,
  onClose,
}: {
  readonly carId: CarId
  readonly spending: SpendingView
  readonly amount: string
  readonly onClose: () => void
}) {
  const command = useCommand()
  const { number, name } = spending
  return (
    <ReasonDialog
      title="This was never spent"
      label="Why it is voided"
      submit="Go on to the code"
      command={command}
      onClose={onClose}
      onSubmit={(reason) =>
        command.send({
          kind: 'voidFact',
          carId,
          payload: { number, reason },
          sign: {
            title: 'Void what was spent',
            says: [`${name}, ${amount}`, `Reason: ${reason}`],
            confirm: 'Void it',
          },
        })
      }
    >
      <p>
        {name}, {amount}. A wrong amount is put right by voiding it and entering it again.
      </p>
    </ReasonDialog>
  )
}
