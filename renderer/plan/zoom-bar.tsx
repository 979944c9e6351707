import { Button } from '../parts/form/button.tsx'
import styles from './plan.module.css'
import type { TimeView } from './use-time-view.ts'

const STEPS = [
  { days: 1, words: 'Day' },
  { days: 7, words: 'Week' },
  { days: 28, words: '4 weeks' },
  { days: 91, words: '3 months' },
  { days: 183, words: '6 months' },
]

/** How much time the drawing shows. */
export function ZoomBar({ time, now }: { readonly time: TimeView; readonly now: number }) {
  return (
    <div className={styles.zoomBar} role="group" aria-label="How much time is shown">
      {STEPS.map(({ days, words }) => (
        <button
          key={days}
          type="button"
          className={styles.zoomStep}
          aria-pressed={Math.abs(time.daysShown - days) < 0.5}
          onClick={() => time.zoomTo(days)}
        >
          {words}
        </button>
      ))}
      <Button onClick={() => time.step('closer')} aria-label="Closer">
        +
      </Button>
      <Button onClick={() => time.step('wider')} aria-label="Wider">
        −
      </Button>
      <Button onClick={() => time.goTo(now)}>Today</Button>
    </div>
  )
}
