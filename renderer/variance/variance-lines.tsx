import { Link } from '@tanstack/react-router'
import { fixed, hours } from '../../domain/text/words.ts'
import type { VarianceLine } from '../../domain/views/view-shapes.ts'
import { HoursBar, spentOf } from '../parts/hours-bar.tsx'
import styles from './variance.module.css'

/** One grouping: each line its hours as a bar on one scale, and its variance on a ruler around zero. */
export function VarianceLines({
  title,
  lines,
  noun,
}: {
  readonly title: string
  readonly lines: readonly VarianceLine[]
  readonly noun: string
}) {
  const scale = Math.max(
    0,
    ...lines.map(({ hours: pair }) => Math.max(pair.authorised + pair.waiting, pair.spent)),
  )
  const widest = Math.max(1, ...lines.map((line) => Math.abs(line.variance)))
  return (
    <section className="stack-tight">
      <h2>{title}</h2>
      <div className={styles.heads} aria-hidden="true">
        <span>{noun}</span>
        <span>authorised, earned, spent</span>
        <span className="number">spent of authorised</span>
        <span className={styles.rulerHead}>
          <span>more spent</span>
          <span>less spent</span>
        </span>
        <span className="number">variance</span>
        <span className="number">index</span>
        <span className="number">rework</span>
        <span className="number">expected</span>
      </div>
      <ul className={styles.lines}>
        {lines.map((line) => (
          <li key={line.key} className={styles.line}>
            <Name line={line} />
            <HoursBar hours={line.hours} scale={scale} />
            <span className="number small">{spentOf(line.hours)}</span>
            <Ruler variance={line.variance} widest={widest} />
            <span className={`number ${line.variance < -0.05 ? 'is-accent' : 'is-passed'}`}>
              {signed(line.variance)}
            </span>
            <Labelled label="index">{line.index === null ? '–' : fixed(line.index, 2)}</Labelled>
            <Labelled label="rework">{line.hours.rework === 0 ? '–' : hours(line.hours.rework)}</Labelled>
            <Labelled label="expected">{hours(line.expected)}</Labelled>
          </li>
        ))}
      </ul>
    </section>
  )
}

/** A small figure; its label shows where the columns have no heads. */
function Labelled({ label, children }: { readonly label: string; readonly children: string }) {
  return (
    <span className="number small quiet">
      <span className={styles.label}>{label} </span>
      {children}
    </span>
  )
}

function Name({ line }: { readonly line: VarianceLine }) {
  return line.carId === null ? (
    <span className="strong">{line.name}</span>
  ) : (
    <Link className="strong" to="/cars/$carId" params={{ carId: line.carId }} search={{ sheet: 'hours' }}>
      {line.name}
    </Link>
  )
}

/** Hours below and above zero to the left and right of a centre line, like a dial gauge laid flat. */
function Ruler({ variance, widest }: { readonly variance: number; readonly widest: number }) {
  const share = (50 * Math.abs(variance)) / widest
  const side = variance < 0 ? { right: '50%', width: `${share}%` } : { left: '50%', width: `${share}%` }
  return (
    <div className={styles.ruler} aria-hidden="true">
      <div className={variance < 0 ? styles.over : styles.under} style={side} />
    </div>
  )
}

const signed = (value: number): string => {
  const size = hours(Math.abs(value))
  return Math.abs(value) < 0.05 ? '0.0 h' : `${value < 0 ? '−' : '+'}${size}`
}
