import { moneyWords } from '../../domain/text/money-words.ts'
import { hours } from '../../domain/text/words.ts'
import type { AmountView, FigureName, FiguresView, MoneyView } from '../../domain/views/money-view.ts'
import { amountWords } from '../parts/form/money-amount.ts'
import { TableFrame } from '../parts/frame/table-frame.tsx'
import styles from './money.module.css'

const COLUMNS: readonly { readonly figure: FigureName; readonly words: string }[] = [
  { figure: 'baseline', words: 'first estimate' },
  { figure: 'authorised', words: 'authorised' },
  { figure: 'waiting', words: 'waits' },
  { figure: 'earned', words: 'earned' },
  { figure: 'spent', words: 'spent' },
  { figure: 'beyond', words: 'not authorised' },
  { figure: 'expected', words: 'expected at the end' },
  { figure: 'asked', words: 'asked for' },
]

/** Every figure of each payer, in labour and the rest, and of all together. */
export function MoneyTable({ money, whole }: { readonly money: MoneyView; readonly whole: FiguresView }) {
  const { payers, currency } = money
  return (
    <section className="stack-tight">
      <TableFrame label="Money by payer">
        <table className="table">
          <thead>
            <tr>
              <th scope="col">pays</th>
              {COLUMNS.map(({ figure, words }) => (
                <th key={figure} scope="col" className="number">
                  {words}
                </th>
              ))}
            </tr>
          </thead>
          {payers.map((each) => (
            <PayerRows key={each.payer} name={each.payer} figures={each} currency={currency} />
          ))}
          {payers.length > 1 && <PayerRows name="all" figures={whole} currency={currency} />}
        </table>
      </TableFrame>
      <p className="small quiet">
        Without tax. Hours worked take the rate of their day, authorised ones that of the day on which they
        were accepted, waiting ones and those still to do today’s. Not authorised is the part of what is spent
        that goes beyond what its payer has accepted for that gate, task or cost.
      </p>
    </section>
  )
}

function PayerRows({
  name,
  figures,
  currency,
}: {
  readonly name: string
  readonly figures: FiguresView
  readonly currency: string
}) {
  const row = (words: (amount: AmountView) => string) =>
    COLUMNS.map(({ figure }) => (
      <td key={figure} className="number">
        {words(figures[figure])}
      </td>
    ))
  return (
    <tbody className={styles.ofPayer}>
      <tr>
        <th scope="row">{name}</th>
        {row((amount) => amountWords(amount, currency))}
      </tr>
      <tr>
        <th scope="row">labour</th>
        {row(({ labour, unpricedHours }) =>
          labour === null ? hours(unpricedHours) : moneyWords(labour, currency),
        )}
      </tr>
      <tr>
        <th scope="row">parts, materials, outside work</th>
        {row(({ goods }) => moneyWords(goods, currency))}
      </tr>
    </tbody>
  )
}
