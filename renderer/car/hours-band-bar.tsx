import { hours } from '../../domain/text/words.ts'
import type { HoursFigures } from '../../domain/views/hours-sheet-shapes.ts'
import styles from './hours-band-bar.module.css'
import { HoursBar } from '../parts/hours/hours-bar.tsx'

/**
 * The bars of authorised, earned and spent hours, and below them on the same scale where they may end: the band from what
 * half stay under to what four of five stay under, and a mark at what is expected.
 *
 * @param scale hours that the full width stands for
 */
export function HoursBandBar({ figures, scale }: { readonly figures: HoursFigures; readonly scale: number }) {
  const { hours: pair, expected, band } = figures
  const share = (value: number) => `${Math.min(100, (100 * Math.max(0, value)) / Math.max(scale, 0.1))}%`
  return (
    <div>
      <HoursBar hours={pair} scale={scale} />
      {(band !== null || expected > 0) && (
        <div className={styles.track} role="img" aria-label={endWords(figures)}>
          {band !== null && (
            <div
              className={styles.band}
              style={{ left: share(band.p50), width: share(band.p80 - band.p50) }}
            />
          )}
          {expected > 0 && <div className={styles.expected} style={{ left: share(expected) }} />}
        </div>
      )}
    </div>
  )
}

/** The hours that a bar must have room for. */
export const reachOf = ({ hours: { authorised, waiting, spent }, expected, band }: HoursFigures): number =>
  Math.max(authorised + waiting, spent, expected, band?.p80 ?? 0)

export function HoursBandLegend() {
  return (
    <p className="hours-legend">
      <span className={`hours-key ${styles.expectedKey}`} /> expected{' '}
      <span className={`hours-key ${styles.bandKey}`} /> half stay under its near end, four of five under its
      far one
    </p>
  )
}

function endWords({ expected, band }: HoursFigures): string {
  const ends =
    band === null ? '' : `; half stay under ${hours(band.p50)}, four of five under ${hours(band.p80)}`
  return `${hours(expected)} expected${ends}`
}
