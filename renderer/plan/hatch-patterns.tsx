import { HATCHES, hatchOf } from '../../domain/drawing/plan-hatch.ts'
import styles from './drawing.module.css'

/** The twelve hatchings, for every drawing of the page to fill with. */
export function HatchPatterns() {
  return (
    <svg className={styles.patterns} aria-hidden="true">
      <defs>
        {HATCHES.map(({ width, height, lines, dots }, number) => (
          <pattern
            key={number}
            id={`plan-hatch-${number}`}
            patternUnits="userSpaceOnUse"
            width={width}
            height={height}
          >
            <path className={styles.hatchLines} d={lines} />
            <path className={styles.hatchDots} d={dots} />
          </pattern>
        ))}
        <pattern id="plan-off" patternUnits="userSpaceOnUse" width={14} height={14}>
          <path className={styles.hatchLines} d="M-1 1L1 -1M-1 15L15 -1M13 15L15 13" />
        </pattern>
      </defs>
    </svg>
  )
}

/** A car's hatching by itself, for lists and the legend. */
export function HatchSign({
  hatch,
  isDecoration = false,
}: {
  readonly hatch: number
  /** True where the car is named beside it, and nothing rests on how it is drawn. */
  readonly isDecoration?: boolean
}) {
  return (
    <svg
      className={styles.hatchSign}
      viewBox="0 0 34 18"
      {...(isDecoration ? { 'aria-hidden': true } : { role: 'img', 'aria-label': hatchOf(hatch).words })}
    >
      <rect className={styles.sheetFill} x="0.75" y="0.75" width="32.5" height="16.5" />
      <rect
        x="0.75"
        y="0.75"
        width="32.5"
        height="16.5"
        fill={`url(#plan-hatch-${hatch % HATCHES.length})`}
      />
      <rect className={styles.frame} x="0.75" y="0.75" width="32.5" height="16.5" />
    </svg>
  )
}
