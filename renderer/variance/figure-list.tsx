import { fixed, hours } from '../../domain/text/words.ts'
import type { VarianceFiguresView } from '../../domain/views/variance-shapes.ts'
import { signedHours } from '../parts/hours/signed-hours.ts'
import styles from './variance.module.css'

/** Every figure of one sum with what it says, in the workshop's words and the published letters. */
export function FigureList({ figures }: { readonly figures: VarianceFiguresView }) {
  return (
    <dl className={styles.figureList}>
      {FIGURES.map(({ label, letters, of }) => (
        <div key={label}>
          <dt>
            {label}
            {letters !== '' && <span className="quiet"> {letters}</span>}
          </dt>
          <dd className="number">{of(figures) ?? '–'}</dd>
        </div>
      ))}
    </dl>
  )
}

interface Row {
  readonly label: string
  readonly letters: string
  readonly of: (figures: VarianceFiguresView) => string | null
}

const asHours = (value: number): string => hours(value)
const asIndex = (value: number | null): string | null => (value === null ? null : fixed(value, 2))

const FIGURES: readonly Row[] = [
  { label: 'first estimate', letters: '', of: ({ baseline }) => asHours(baseline) },
  { label: 'authorised', letters: 'BAC', of: (each) => asHours(each.hours.authorised) },
  { label: 'waits for a decision', letters: '', of: (each) => asHours(each.hours.waiting) },
  { label: 'given back', letters: '', of: (each) => asHours(each.hours.givenBack) },
  { label: 'planned by now', letters: 'PV', of: ({ planned }) => asHours(planned) },
  { label: 'earned', letters: 'EV', of: (each) => asHours(each.hours.earned) },
  { label: 'spent', letters: 'AC', of: (each) => asHours(each.hours.spent) },
  { label: 'of it on open gates', letters: '', of: ({ spentOnOpen }) => asHours(spentOnOpen) },
  { label: 'earned less spent', letters: 'CV', of: ({ variance }) => signedHours(variance) },
  { label: 'earned by spent', letters: 'CPI', of: ({ index }) => asIndex(index) },
  {
    label: 'earned less planned',
    letters: 'SV',
    of: ({ scheduleVariance }) => (scheduleVariance === null ? null : signedHours(scheduleVariance)),
  },
  { label: 'earned by planned', letters: 'SPI', of: ({ scheduleIndex }) => asIndex(scheduleIndex) },
  { label: 'expected at completion', letters: 'EAC', of: ({ expected }) => asHours(expected) },
  {
    label: 'authorised less expected',
    letters: 'VAC',
    of: ({ atCompletion }) => signedHours(atCompletion),
  },
  { label: 'rework', letters: '', of: (each) => asHours(each.hours.rework) },
  { label: 'on released holds', letters: '', of: ({ onReleased }) => asHours(onReleased) },
]
