import { moneyWords } from '../../domain/text/money-words.ts'
import type { FiguresView, MoneyView } from '../../domain/views/money-view.ts'
import { EarnedBar, HoursLegend } from '../parts/hours/hours-bar.tsx'
import { amountWords } from '../parts/form/money-amount.ts'
import styles from './money.module.css'

/** Each payer against what they have authorised, on one scale, and what they are asked for. */
export function MoneyPayers({ money }: { readonly money: MoneyView }) {
  const { payers, currency, charge } = money
  const scale = Math.max(
    ...payers.map(({ authorised, waiting, spent }) =>
      Math.max((authorised.total ?? 0) + (waiting.total ?? 0), spent.total ?? 0),
    ),
  )
  return (
    <section className="stack-tight">
      <ul className={styles.payers}>
        {payers.map((each) => (
          <li key={each.payer} className={styles.payer}>
            <span className="strong">{each.payer}</span>
            <EarnedBar figures={barFigures(each)} label={barWords(each, currency)} scale={scale} />
            <span className="number">
              {amountWords(each.spent, currency)} of {amountWords(each.authorised, currency)}
            </span>
          </li>
        ))}
      </ul>
      <HoursLegend />
      <ul className={styles.charge}>
        {charge.map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
    </section>
  )
}

const barFigures = ({ authorised, waiting, earned, spent }: FiguresView) => ({
  authorised: authorised.total ?? 0,
  waiting: waiting.total ?? 0,
  earned: earned.total ?? 0,
  spent: spent.total ?? 0,
})

function barWords({ authorised, waiting, earned, spent }: FiguresView, currency: string): string {
  return [
    `${amountWords(spent, currency)} spent`,
    `${amountWords(earned, currency)} earned of ${amountWords(authorised, currency)} authorised`,
    ...(waiting.total === 0 ? [] : [`${moneyWords(waiting.total ?? 0, currency)} wait for a decision`]),
  ].join(', ')
}
