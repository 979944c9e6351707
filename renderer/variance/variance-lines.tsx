import { Link } from '@tanstack/react-router'
import { useState } from 'react'
import { fixed, hours } from '../../domain/text/words.ts'
import type { VarianceLine } from '../../domain/views/variance-shapes.ts'
import { WordButton } from '../parts/form/button.tsx'
import { HoursBar, spentOf } from '../parts/hours/hours-bar.tsx'
import type { VarianceSheet } from '../parts/sheets/variance-sheets.ts'
import { signedHours } from '../parts/hours/signed-hours.ts'
import styles from './variance.module.css'

/** Cars of ten years, or its months, are more than anybody reads from top to bottom. */
const SHOWN_AT_FIRST = 40
const SHOWN_MORE = 80

/** One grouping: each line its hours as a bar on one scale, and its variance on a ruler around zero. */
export function VarianceLines({
  title,
  by,
  lines,
  noun,
}: {
  readonly title: string
  readonly by: VarianceSheet
  readonly lines: readonly VarianceLine[]
  readonly noun: string
}) {
  const [most, setMost] = useState(SHOWN_AT_FIRST)
  const left = lines.length - most
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
        <span className="number">index CPI</span>
        <span className="number">index SPI</span>
        <span className="number">rework</span>
        <span className="number">expected</span>
      </div>
      <ul className={styles.lines}>
        {lines.slice(0, most).map((line) => (
          <li key={line.key} className={styles.line}>
            <Link className="strong" to="/variance" search={{ by, key: line.key }}>
              {line.name}
            </Link>
            <HoursBar hours={line.hours} scale={scale} />
            <span className="number small">{spentOf(line.hours)}</span>
            <Ruler variance={line.variance} widest={widest} />
            <span className={`number ${line.variance < -0.05 ? 'is-accent' : 'is-passed'}`}>
              {signedHours(line.variance)}
            </span>
            <Labelled label="CPI">{indexWords(line.index)}</Labelled>
            <Labelled label="SPI">{indexWords(line.scheduleIndex)}</Labelled>
            <Labelled label="rework">{line.hours.rework === 0 ? '–' : hours(line.hours.rework)}</Labelled>
            <Labelled label="expected">{hours(line.expected)}</Labelled>
          </li>
        ))}
      </ul>
      {left > 0 && (
        <WordButton onClick={() => setMost(most + SHOWN_MORE)}>
          {left > SHOWN_MORE ? `show ${SHOWN_MORE} more of ${left}` : `show ${left} more`}
          <span className="hidden-word">: {title}</span>
        </WordButton>
      )}
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

const indexWords = (index: number | null): string => (index === null ? '–' : fixed(index, 2))
