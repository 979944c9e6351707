import { moneyWords } from '../../../domain/text/money-words.ts'
import { hours } from '../../../domain/text/words.ts'
import type { VariationView } from '../../../domain/views/view-shapes.ts'
import { useActor } from '../sign/actor.tsx'
import { moreWords, rangeWords } from '../hours/band-words.ts'
import styles from './variation-lines.module.css'

/** The hours that count, and below them how few and how many they may become, or what was asked for. */
export function HoursInAll({ variation }: { readonly variation: VariationView }) {
  const { hours: counted, asked, changed } = variation
  return (
    <p className={styles.inAll}>
      <span className="figure">{moreWords(counted)}</span>
      <span className="small quiet">
        {changed
          ? `asked ${hours(asked.likely)}, accepted ${hours(counted)}`
          : asked.low !== asked.high && rangeWords(asked)}
      </span>
    </p>
  )
}

/** Gate by gate and cost by cost: what is asked, and what was accepted where that differs. */
export function VariationLines({ variation }: { readonly variation: VariationView }) {
  const { currency } = useActor().session
  const { lines, costs, changed } = variation
  return (
    <ul className={`lines small ${styles.lines}`}>
      {lines.map(({ what, hours: counted, asked }) => (
        <li key={what}>
          <span>{what}</span>
          <span className="quiet">{asked.low === asked.high ? '' : rangeWords(asked)}</span>
          <span className="number">
            {changed ? `asked ${hours(asked.likely)}, accepted ${hours(counted)}` : moreWords(asked.likely)}
          </span>
        </li>
      ))}
      {costs?.map(({ costId, name, kind, asked, amount }) => (
        <li key={costId}>
          <span>{name}</span>
          <span className="quiet">{kind}</span>
          <span className="number">
            {changed
              ? `asked ${moneyWords(asked, currency)}, accepted ${moneyWords(amount, currency)}`
              : moneyWords(asked, currency)}
          </span>
        </li>
      ))}
    </ul>
  )
}
