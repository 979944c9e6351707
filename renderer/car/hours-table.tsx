import { useState, type ReactNode } from 'react'
import { fixed, hours, joinWords, LEAST_SAID_HOURS } from '../../domain/text/words.ts'
import type {
  GateHours,
  HoursEntry,
  HoursFigures,
  HoursSheetView,
  WorkHours,
} from '../../domain/views/hours-sheet-shapes.ts'
import { LEAST_OVER_HOURS } from '../../domain/watch/over-authorised.ts'
import { HoursBandBar, reachOf } from './hours-band-bar.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import { signedHours } from '../parts/hours/signed-hours.ts'
import styles from './hours.module.css'

/**
 * The hours of a car in one table, so that all levels stand in the same columns: the car, its payers, repairs and tasks.
 * Repairs open to their gates, gates and tasks to their entries. On a phone each row is a block with named figures.
 */
export function HoursTable({ view }: { readonly view: HoursSheetView }) {
  const { total, payers, works } = view
  const wholeScale = Math.max(...[total, ...payers].map(reachOf))
  const scale = Math.max(0, ...works.map(reachOf))
  return (
    <table className={styles.table}>
      <thead>
        <tr>
          <th scope="col">
            <span className="hidden-word">what</span>
          </th>
          {COLUMNS.map((name) => (
            <th key={name} scope="col">
              {name}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        <Row figures={total} scale={wholeScale} level="total" name="The whole car" />
        {payers.length > 1 &&
          payers.map((each) => (
            <Row
              key={each.payer}
              figures={each}
              scale={wholeScale}
              level="payer"
              name={`the ${each.payer} pays`}
            />
          ))}
      </tbody>
      {works.map((work) => (
        <WorkRows key={work.key} work={work} scale={scale} namesPayers={payers.length > 1} />
      ))}
    </table>
  )
}

const COLUMNS = ['authorised', 'earned', 'spent', 'expected', 'likely', 'variance', 'index'] as const
const ALL_COLUMNS = COLUMNS.length + 1

function WorkRows({
  work,
  scale,
  namesPayers,
}: {
  readonly work: WorkHours
  readonly scale: number
  readonly namesPayers: boolean
}) {
  const [isOpen, setIsOpen] = useState(false)
  const gatesScale = Math.max(0, ...work.gates.map(reachOf))
  const payer = namesPayers && work.payers.length > 0 ? `${joinWords(work.payers)} pays` : null
  return (
    <tbody>
      <Row
        figures={work}
        scale={scale}
        level="work"
        name={<Opener name={work.name} isOpen={isOpen} onToggle={() => setIsOpen(!isOpen)} />}
        note={[payer, firstWords(work)]}
      />
      {isOpen && work.repairId === null && <Entries entries={work.entries} of={work.name} />}
      {isOpen &&
        work.gates.map((gate) => <GateRows key={gate.gate} gate={gate} of={work.name} scale={gatesScale} />)}
    </tbody>
  )
}

function GateRows({
  gate,
  of,
  scale,
}: {
  readonly gate: GateHours
  readonly of: string
  readonly scale: number
}) {
  const [isOpen, setIsOpen] = useState(false)
  const { status, left, entries } = gate
  const label = `${gate.gate}${entries.length === 0 ? '' : `, ${entries.length}`}`
  return (
    <>
      <Row
        figures={gate}
        scale={scale}
        level="gate"
        name={
          entries.length === 0 ? (
            <span className={styles.bare}>{gate.gate}</span>
          ) : (
            <Opener name={gate.gate} isOpen={isOpen} onToggle={() => setIsOpen(!isOpen)} />
          )
        }
        note={[
          status === 'open' ? null : status,
          left === null || status !== 'open' ? null : `${hours(left)} said to be left`,
          firstWords(gate),
        ]}
      />
      {isOpen && <Entries entries={entries} of={`${of}, ${label}`} />}
    </>
  )
}

function Opener({
  name,
  isOpen,
  onToggle,
}: {
  readonly name: string
  readonly isOpen: boolean
  readonly onToggle: () => void
}) {
  return (
    <button type="button" className={styles.name} aria-expanded={isOpen} onClick={onToggle}>
      {name}
    </button>
  )
}

/** The first estimate where another figure is agreed now. */
const firstWords = ({
  baseline,
  hours: { authorised, waiting, givenBack },
}: HoursFigures & { readonly baseline: number }) =>
  Math.abs(baseline - (authorised + waiting + givenBack)) < 0.05 ? null : `first estimate ${hours(baseline)}`

function Row({
  figures,
  scale,
  level,
  name,
  note = [],
}: {
  readonly figures: HoursFigures
  readonly scale: number
  readonly level: 'total' | 'payer' | 'work' | 'gate'
  readonly name: ReactNode
  readonly note?: readonly (string | null)[]
}) {
  const said = note.filter((each) => each !== null)
  return (
    <tr className={styles[level]}>
      <th scope="row">
        <div className={styles.named}>
          {name}
          {said.length > 0 && <span className="quiet small">{said.join('; ')}</span>}
        </div>
        <HoursBandBar figures={figures} scale={scale} />
      </th>
      <Figures figures={figures} />
    </tr>
  )
}

function Figures({
  figures: { hours: pair, expected, band, variance, index },
}: {
  readonly figures: HoursFigures
}) {
  const beyond = expected - pair.authorised
  const isOver = beyond >= LEAST_OVER_HOURS
  return (
    <>
      <Figure column="authorised" value={pair.authorised}>
        {pair.waiting > 0 && <Aside>+ {hours(pair.waiting)} waits</Aside>}
        {pair.givenBack > 0 && <Aside>{hours(pair.givenBack)} given back</Aside>}
      </Figure>
      <Figure column="earned" value={pair.earned} />
      <Figure column="spent" value={pair.spent}>
        {pair.rework > 0 && <Aside>{hours(pair.rework)} rework</Aside>}
      </Figure>
      <td data-column="expected" className={isOver ? 'is-accent' : undefined}>
        {hours(expected)}
        {isOver && <Aside>{hours(beyond)} beyond</Aside>}
      </td>
      <td data-column="likely">
        {band === null ? <span className="quiet">–</span> : `${fixed(band.p50, 1)} to ${hours(band.p80)}`}
      </td>
      <td data-column="variance">
        <Variance value={variance} />
      </td>
      <td data-column="index">{index === null ? <span className="quiet">–</span> : fixed(index, 2)}</td>
    </>
  )
}

function Figure({
  column,
  value,
  children,
}: {
  readonly column: string
  readonly value: number
  readonly children?: ReactNode
}) {
  return (
    <td data-column={column}>
      {hours(value)}
      {children}
    </td>
  )
}

const Aside = ({ children }: { readonly children: ReactNode }) => (
  <div className="quiet small">{children}</div>
)

/** '+2.0 h' when less was spent than earned, '−3.5 h' when more. */
function Variance({ value }: { readonly value: number }) {
  const words = signedHours(value)
  if (Math.abs(value) < LEAST_SAID_HOURS) return <span className="quiet">{words}</span>
  return <span className={value > 0 ? 'is-passed' : 'is-accent'}>{words}</span>
}

function Entries({ entries, of }: { readonly entries: readonly HoursEntry[]; readonly of: string }) {
  return (
    <tr className={styles.entries}>
      <td colSpan={ALL_COLUMNS}>
        {entries.length === 0 ? (
          <p className="quiet">Nobody has logged time on it yet.</p>
        ) : (
          <ul className="lines" aria-label={`Entries of ${of}`}>
            {entries.map((entry, index) => (
              <EntryLine key={`${entry.entryId}${index}`} entry={entry} />
            ))}
          </ul>
        )}
      </td>
    </tr>
  )
}

function EntryLine({ entry }: { readonly entry: HoursEntry }) {
  const when = useWhen()
  const { person, date, start, end, hours: own, ofHours, running, confirmed, byHand, rework } = entry
  const said = [
    when.day(date),
    ...(start === null
      ? []
      : [end === null ? `since ${when.time(start)}` : `${when.time(start)} to ${when.time(end)}`]),
    ...(byHand ? ['by hand'] : []),
    ...(ofHours - own < 0.005 ? [] : [`part of ${hours(ofHours, 2)}`]),
    ...(confirmed ? [] : ['end not confirmed']),
    ...(rework === null ? [] : [`rework: ${rework}`]),
  ]
  return (
    <li className="line">
      <span>
        <span className="strong">{person}</span> <span className="quiet small">{said.join(', ')}</span>
      </span>
      <span className="strong">{running ? `${hours(own)}, running` : hours(own, 2)}</span>
    </li>
  )
}
