import { Link } from '@tanstack/react-router'
import { useState } from 'react'
import type { AttentionGroup, AttentionLine, AttentionWay } from '../../../domain/views/attention-shapes.ts'
import type { ClockView } from '../../../domain/views/shared-views.ts'
import styles from './attention.module.css'
import { Button, WordButton } from '../form/button.tsx'
import { onDemand } from '../frame/on-demand.tsx'
import { useWhen } from '../frame/when.tsx'

const ConfirmClockDialog = onDemand(
  async () => (await import('../clock/confirm-clock-dialog.tsx')).ConfirmClockDialog,
)

/** So many of each kind are seen at once, so that all kinds fit a screen. */
const SHOWN_AT_FIRST = 2

/**
 * Warnings by kind, worst first, each with the day that it began, what to do and the way there. On a car's own hours sheet
 * the car is not named, and no way leads to that sheet.
 */
export function AttentionList({
  groups,
  isOnHours = false,
}: {
  readonly groups: readonly AttentionGroup[]
  readonly isOnHours?: boolean
}) {
  const [clock, setClock] = useState<ClockView | null>(null)
  return (
    <div className={styles.groups}>
      {groups.map((group) => (
        <Group key={group.title} group={group} isOnHours={isOnHours} onClock={setClock} />
      ))}
      {clock !== null && <ConfirmClockDialog clock={clock} onClose={() => setClock(null)} />}
    </div>
  )
}

function Group({
  group,
  ...line
}: {
  readonly group: AttentionGroup
  readonly isOnHours: boolean
  readonly onClock: (clock: ClockView) => void
}) {
  const [isAll, setIsAll] = useState(false)
  const { title, lines } = group
  const more = lines.length - SHOWN_AT_FIRST
  const shown = isAll ? lines : lines.slice(0, SHOWN_AT_FIRST)
  return (
    <section>
      <h3 className={styles.title}>{title}</h3>
      <ul className="lines">
        {shown.map((each) => (
          <Line key={each.key} said={each} {...line} />
        ))}
      </ul>
      {more > 0 && (
        <WordButton aria-expanded={isAll} onClick={() => setIsAll(!isAll)}>
          {isAll ? 'fold' : `and ${more} more`}
          <span className="hidden-word">: {title}</span>
        </WordButton>
      )}
    </section>
  )
}

function Line({
  said,
  isOnHours,
  onClock,
}: {
  readonly said: AttentionLine
  readonly isOnHours: boolean
  readonly onClock: (clock: ClockView) => void
}) {
  const when = useWhen()
  const { carName, words, todo, since, way } = said
  return (
    <li className="line">
      <span>
        {!isOnHours && <span className="strong">{carName}: </span>}
        {withUnits(words)}{' '}
        <span className="quiet">
          {todo} Since {since === when.today ? 'today' : when.day(since)}.
        </span>
      </span>
      {!(isOnHours && way.to === 'sheet' && way.sheet === 'hours') && <Way way={way} onClock={onClock} />}
    </li>
  )
}

/** A figure and its unit stay on one line. */
const withUnits = (words: string): string => words.replaceAll(/(\d) (h|%)/g, '$1\u00A0$2')

function Way({ way, onClock }: { readonly way: AttentionWay; readonly onClock: (clock: ClockView) => void }) {
  switch (way.to) {
    case 'clock':
      return <Button onClick={() => onClock(way.clock)}>When did it stop?</Button>
    case 'repair':
      return (
        <Link
          className={styles.way}
          to="/cars/$carId/repairs/$repairId"
          params={{ carId: way.carId, repairId: way.repairId }}
        >
          the repair
        </Link>
      )
    case 'sheet':
      return (
        <Link
          className={styles.way}
          to="/cars/$carId"
          params={{ carId: way.carId }}
          search={way.sheet === 'map' ? {} : { sheet: way.sheet }}
        >
          {SHEET_WORDS[way.sheet]}
        </Link>
      )
    case 'day sheet':
      return (
        <Link className={styles.way} to="/day-sheet" search={{ person: way.personId }}>
          the day sheet
        </Link>
      )
  }
}

const SHEET_WORDS = {
  map: 'the tasks',
  estimate: 'the estimate',
  hours: 'the hours',
  decisions: 'the decisions',
} as const
