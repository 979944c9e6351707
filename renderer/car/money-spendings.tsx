import { useState } from 'react'
import type { CarId, VisitId } from '../../domain/ids.ts'
import { moneyWords } from '../../domain/text/money-words.ts'
import type { MoneyView, SpendingView } from '../../domain/views/money-view.ts'
import { Button, WordButton } from '../parts/form/button.tsx'
import { ReasonDialog } from '../parts/form/reason-dialog.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import styles from './money.module.css'
import { MoneySpendDialog } from './money-spend-dialog.tsx'
import { GO_ON_TO_SIGN } from '../parts/sign/sign-request.ts'

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
        <ul className="lines">
          {money.spendings.map((each) => (
            <SpendingLine
              key={each.spendingId}
              spending={each}
              currency={money.currency}
              onVoid={() => setVoiding(each)}
            />
          ))}
        </ul>
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

function SpendingLine({
  spending,
  currency,
  onVoid,
}: {
  readonly spending: SpendingView
  readonly currency: string
  readonly onVoid: () => void
}) {
  const when = useWhen()
  const { name, kind, repair, date, payer, costName, amount } = spending
  return (
    <li className={styles.amountLine}>
      <span>
        <span className="strong">{name}</span>{' '}
        <span className="quiet small">
          {kind}, {repair}
        </span>
      </span>
      <span>
        {when.day(date)}, {payer}{' '}
        {costName === null ? (
          <span className="is-accent">not agreed</span>
        ) : (
          <span className="quiet small">{costName === name ? 'agreed' : `agreed as ${costName}`}</span>
        )}
      </span>
      <span className="number">{moneyWords(amount, currency)}</span>
      <span className={styles.act}>
        <WordButton onClick={onVoid}>
          void<span className="hidden-word"> {name}</span>
        </WordButton>
      </span>
    </li>
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
  const { number, name } = spending
  return (
    <ReasonDialog
      title="This was never spent"
      label="Why it is voided"
      submit={GO_ON_TO_SIGN}
      onClose={onClose}
      act={(reason) => ({
        kind: 'voidFact',
        carId,
        payload: { number, reason },
        sign: {
          title: 'Void what was spent',
          says: [`${name}, ${amount}`, `Reason: ${reason}`],
          confirm: 'Void it',
        },
      })}
    >
      <p>
        {name}, {amount}. A wrong amount is put right by voiding it and entering it again.
      </p>
    </ReasonDialog>
  )
}
