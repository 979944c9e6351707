import { useQuery } from '@tanstack/react-query'
import { Link, useSearch } from '@tanstack/react-router'
import { useEffect, useRef, useState } from 'react'
import type { CarId } from '../../domain/ids.ts'
import type { CarView, RecordView } from '../../domain/views/view-shapes.ts'
import { api } from '../client.ts'
import { Button, WordButton } from '../parts/form/button.tsx'
import { TextInput } from '../parts/form/inputs.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { ReasonDialog } from '../parts/form/reason-dialog.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import { AddNoteDialog } from './add-note-dialog.tsx'
import styles from './record.module.css'
import { GO_ON_TO_SIGN } from '../parts/sign/sign-request.ts'

type Line = RecordView['lines'][number]

/** Shown at once; more at a tap, so that ten years of a car do not slow the screen. */
const PAGE = 100

/** Every fact of the car in order, with who and when; what never happened is voided here. */
export function RecordSheet({ view }: { readonly view: CarView }) {
  const { carId } = view.header
  const query = useQuery(api.record.queryOptions({ carId }))
  return <Loaded query={query}>{(record) => <Record carId={carId} record={record} />}</Loaded>
}

function Record({ carId, record }: { readonly carId: CarId; readonly record: RecordView }) {
  const when = useWhen()
  const [find, setFind] = useState('')
  const { line: sought } = useSearch({ from: '/cars/$carId' })
  const soughtAt = record.lines.findIndex(({ number }) => number === sought)
  const [shown, setShown] = useState(PAGE)
  const count = Math.max(shown, soughtAt + 1)
  const [voiding, setVoiding] = useState<Line | null>(null)
  const [isNoting, setIsNoting] = useState(false)
  const wanted = find.trim().toLowerCase()
  const lines = record.lines.filter(({ words, by }) => `${words} ${by}`.toLowerCase().includes(wanted))
  const days = Map.groupBy(lines.slice(0, count), ({ happened }) => when.dateOf(happened))
  return (
    <div className="stack">
      <div className={styles.head}>
        <TextInput label="Find in the record" type="search" value={find} onChange={setFind} />
        <Button onClick={() => setIsNoting(true)}>Add a note</Button>
      </div>
      {[...days].map(([date, ofDay]) => (
        <section key={date}>
          <h3>{when.day(date)}</h3>
          <ol className="lines">
            {ofDay.map((line) => (
              <RecordLine
                key={line.number}
                carId={carId}
                line={line}
                isSought={line.number === sought}
                onVoid={() => setVoiding(line)}
              />
            ))}
          </ol>
        </section>
      ))}
      {lines.length === 0 && <p className="quiet">Nothing in the record says this.</p>}
      {lines.length > count && (
        <div>
          <Button onClick={() => setShown(count + PAGE)}>
            Show earlier ones, {lines.length - count} more
          </Button>
        </div>
      )}
      <p className={`small quiet ${styles.digest}`}>Head of the chain: {record.head}</p>
      {isNoting && <AddNoteDialog carId={carId} onClose={() => setIsNoting(false)} />}
      {voiding !== null && (
        <ReasonDialog
          title="This never happened"
          label="Why it is voided"
          submit={GO_ON_TO_SIGN}
          onClose={() => setVoiding(null)}
          act={(reason) => ({
            kind: 'voidFact',
            carId,
            payload: { number: voiding.number, reason },
            sign: {
              title: 'Void a fact',
              says: [`Number ${voiding.number}: ${voiding.words}`, `Reason: ${reason}`],
              confirm: 'Void it',
            },
          })}
        >
          <p>
            {voiding.words} ({voiding.by}, {when.dayAndTime(voiding.happened)})
          </p>
          <p className="quiet">
            Void what never happened; reopen what was undone. A fact that a later one needs cannot be voided.
          </p>
        </ReasonDialog>
      )}
    </div>
  )
}

function RecordLine({
  carId,
  line,
  isSought,
  onVoid,
}: {
  readonly carId: CarId
  readonly line: Line
  /** The address names it. */
  readonly isSought: boolean
  readonly onVoid: () => void
}) {
  const when = useWhen()
  const isLater = when.dateOf(line.recorded) !== when.dateOf(line.happened)
  const place = useRef<HTMLLIElement>(null)
  useEffect(() => {
    if (isSought) place.current?.scrollIntoView({ block: 'center' })
  }, [isSought])
  return (
    <li
      ref={place}
      className={isSought ? `${styles.line} ${styles.sought}` : styles.line}
      aria-current={isSought || undefined}
    >
      <span className="quiet small">{when.time(line.happened)}</span>
      <span className={line.voided ? styles.voided : styles.words}>
        {line.words}
        {line.voided && <span className="strong"> (voided)</span>}
        <span className="quiet small">
          {' '}
          {line.by}
          {isLater && `, recorded ${when.dayAndTime(line.recorded)}`}
        </span>
      </span>
      <span className={styles.acts}>
        <span className="quiet small">{line.number}</span>
        {line.repairId !== null && (
          <Link
            to="/cars/$carId/repairs/$repairId"
            params={{ carId, repairId: line.repairId }}
            className="small"
          >
            repair
          </Link>
        )}
        {line.mayVoid && (
          <WordButton className="small" onClick={onVoid}>
            void<span className="hidden-word"> number {line.number}</span>
          </WordButton>
        )}
      </span>
    </li>
  )
}
