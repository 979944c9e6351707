import type { Sureness } from '../../domain/import/photo-match-shapes.ts'
import { SURE_WORDS } from './card-words.ts'
import styles from './card.module.css'

const BARS: Readonly<Record<Sureness | 'by hand', number>> = {
  certain: 3,
  likely: 2,
  'several fit': 1,
  none: 0,
  'by hand': 3,
}

/** How sure a match is: a word, and a rule filled by thirds beside it. */
export function SureMark({ sure }: { readonly sure: Sureness | 'by hand' }) {
  return (
    <span className={styles.sure}>
      <svg width="24" height="12" viewBox="0 0 24 12" aria-hidden="true">
        {[0, 1, 2].map((bar) => (
          <rect
            key={bar}
            x={bar * 8.5 + 0.75}
            y={0.75}
            width={5.5}
            height={10.5}
            className={bar < BARS[sure] ? styles.barFull : styles.barEmpty}
          />
        ))}
      </svg>
      {SURE_WORDS[sure]}
    </span>
  )
}
