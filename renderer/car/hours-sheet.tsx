import { useState } from 'react'
import { fixed, hours } from '../../domain/text/words.ts'
import type { CarView, EntryView, HoursLine } from '../../domain/views/view-shapes.ts'
import { HoursBar, HoursLegend, hoursWords, spentOf } from '../parts/hours-bar.tsx'
import { EmptyState } from '../parts/notice.tsx'
import { useWhen } from '../parts/when.tsx'
import { TableFrame } from '../parts/table-frame.tsx'
import { EstimateTable } from './estimate-table.tsx'
import styles from './hours.module.css'

/** Hours of this visit against the estimate: each repair and task as a bar, its gates below it, and every entry. */
export function HoursSheet({ view }: { readonly view: CarView }) {
  const lines = view.hours
  const scale = Math.max(
    0,
    ...lines.map(({ total }) => Math.max(total.authorised + total.waiting, total.spent)),
  )
  if (lines.length === 0) {
    return (
      <EmptyState title="No hours yet">
        Add repairs on the closing map: each brings the hours of its type as an estimate, which its payer then
        accepts.
      </EmptyState>
    )
  }
  return (
    <div className="stack">
      <TotalLine view={view} />
      <ul className={styles.lines}>
        {lines.map((line) => (
          <HoursOf key={line.key} line={line} scale={scale} />
        ))}
      </ul>
      <HoursLegend />
      <p className="small quiet">
        Variance is earned less spent: above zero the work took less than was authorised for what is done.
      </p>
      <EstimateTable view={view} />
      <Entries entries={view.entries} />
    </div>
  )
}

function TotalLine({ view }: { readonly view: CarView }) {
  const pair = view.header.hours
  const { givenBack } = pair
  return (
    <section className="stack-tight">
      <HoursBar hours={pair} />
      <p>
        {hoursWords(pair)}
        {givenBack > 0 && `; ${hours(givenBack)} given back`}. <Variance value={pair.earned - pair.spent} />
      </p>
    </section>
  )
}

function HoursOf({ line, scale }: { readonly line: HoursLine; readonly scale: number }) {
  const [isOpen, setIsOpen] = useState(false)
  return (
    <li>
      <div className={styles.line}>
        <button
          type="button"
          className={styles.name}
          aria-expanded={isOpen}
          onClick={() => setIsOpen(!isOpen)}
        >
          {line.name}
        </button>
        <HoursBar hours={line.total} scale={scale} />
        <span className="number">{spentOf(line.total)}</span>
        <Variance value={line.variance} />
      </div>
      {isOpen && <GateTable line={line} />}
    </li>
  )
}

function GateTable({ line }: { readonly line: HoursLine }) {
  if (line.gates.length === 0) return <p className="quiet small">First estimate {hours(line.baseline)}.</p>
  return (
    <TableFrame label={`Hours of ${line.name} by gate`}>
      <table className="table">
        <thead>
          <tr>
            <th scope="col">gate</th>
            <th scope="col" className="number">
              first estimate
            </th>
            <th scope="col" className="number">
              authorised
            </th>
            <th scope="col" className="number">
              earned
            </th>
            <th scope="col" className="number">
              spent
            </th>
            <th scope="col" className="number">
              rework
            </th>
            <th scope="col" className="number">
              variance
            </th>
          </tr>
        </thead>
        <tbody>
          {line.gates.map((gate) => (
            <tr key={gate.gate}>
              <th scope="row">
                {gate.gate}
                {gate.status !== 'open' && `, ${gate.status}`}
              </th>
              <td className="number">{hours(gate.baseline)}</td>
              <td className="number">{hours(gate.hours.authorised)}</td>
              <td className="number">{hours(gate.hours.earned)}</td>
              <td className="number">{hours(gate.hours.spent)}</td>
              <td className="number">{gate.hours.rework === 0 ? '' : hours(gate.hours.rework)}</td>
              <td className="number">
                <Variance value={gate.variance} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </TableFrame>
  )
}

/** '+2.0 h under', '−3.5 h over' */
function Variance({ value }: { readonly value: number }) {
  const size = Math.round(Math.abs(value) * 10) / 10
  if (size === 0) return <span className="quiet">0.0 h</span>
  return value > 0 ? (
    <span className="is-passed">+{fixed(size, 1)} h</span>
  ) : (
    <span className="is-accent">−{fixed(size, 1)} h</span>
  )
}

const SHOWN_AT_FIRST = 20

function Entries({ entries }: { readonly entries: readonly EntryView[] }) {
  const when = useWhen()
  const [isAll, setIsAll] = useState(false)
  const shown = isAll ? entries : entries.slice(0, SHOWN_AT_FIRST)
  return (
    <section className="stack-tight">
      <h3>Entries</h3>
      {entries.length === 0 && <p className="quiet">Nobody has logged time on this car yet.</p>}
      <ul className="lines">
        {shown.map((entry) => (
          <li key={entry.entryId} className="line">
            <span>
              <span className="strong">{entry.person}</span>, {entry.what}{' '}
              <span className="quiet small">
                {when.day(entry.date)}
                {entry.start !== null && `, ${when.time(entry.start)}`}
                {entry.end !== null && ` to ${when.time(entry.end)}`}
                {entry.by === 'hand' && ', by hand'}
                {!entry.confirmed && ', end not confirmed'}
                {entry.rework && `, rework${entry.cause === null ? '' : `: ${entry.cause}`}`}
              </span>
            </span>
            <span className="strong">
              {entry.running ? `${hours(entry.hours)}, running` : hours(entry.hours, 2)}
            </span>
          </li>
        ))}
      </ul>
      {entries.length > SHOWN_AT_FIRST && !isAll && (
        <button type="button" className="word-button" onClick={() => setIsAll(true)}>
          all {entries.length} entries
        </button>
      )}
    </section>
  )
}
