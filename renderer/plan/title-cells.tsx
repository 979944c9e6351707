import { Link } from '@tanstack/react-router'
import { useState } from 'react'
import { type StayBlock, workKey } from '../../domain/drawing/plan-rows.ts'
import type { CarId } from '../../domain/ids.ts'
import type { PlannedMove, PlannedWork } from '../../domain/plan/plan.ts'
import { hours, joinWords } from '../../domain/text/words.ts'
import { targetKey } from '../../domain/value/target.ts'
import { Button, WordButton } from '../parts/form/button.tsx'
import { useCommand } from '../parts/form/use-command.ts'
import { RefusalNote } from '../parts/form/notice.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import { PutDownNote } from './carry-strip.tsx'
import { HatchSign } from './hatch-patterns.tsx'
import { PinDialog } from './pin-dialog.tsx'
import { useShownPlan } from './plan-context.ts'
import styles from './plan.module.css'
import { effortWords, pinnedTo, spanWords } from './plan-words.ts'
import { Cell } from './title-cell.tsx'
import type { Carry } from './use-carry.ts'

/** One gate or task: what, who, when, why then, and its pins. */
export function WorkCells({ work }: { readonly work: PlannedWork }) {
  const { names, canChange } = useShownPlan()
  const when = useWhen()
  const command = useCommand()
  const [isPinning, setIsPinning] = useState(false)
  const isPinned = work.pinned.people || work.pinned.day
  const unpin = () =>
    void command.send({ kind: 'unpinWork', carId: work.carId, payload: { target: work.target } })
  return (
    <>
      <Cell name="work">
        <CarName carId={work.carId} />
        <WorkLink work={work} />
        {work.begun && <div className="quiet">begun</div>}
      </Cell>
      <Cell name="who">
        {joinWords(work.people.map(names.person)) || 'nobody'}
        <div className="quiet">
          {hours(work.hours)} left{work.bayId === null ? '' : `, ${names.bay(work.bayId)}`}
        </div>
      </Cell>
      <Cell name="when">{spanWords(work.start, work.finish, when)}</Cell>
      <Cell name="why then" wide>
        {work.why.words}
      </Cell>
      <div className={styles.actionsCell}>
        {isPinned && <div>pinned to {pinnedTo(work)}</div>}
        {canChange && (
          <div className="row">
            <Button onClick={() => setIsPinning(true)}>{isPinned ? 'Change the pin' : 'Pin it'}</Button>
            {isPinned && <Button onClick={unpin}>Unpin it</Button>}
          </div>
        )}
        <RefusalNote refusal={command.refusal} />
      </div>
      {isPinning && <PinDialog work={work} onClose={() => setIsPinning(false)} />}
    </>
  )
}

/** A car in a bay, and whether a booking holds it there. */
export function StayCells({ block, carry }: { readonly block: StayBlock; readonly carry: Carry }) {
  const { names, canChange } = useShownPlan()
  const when = useWhen()
  const command = useCommand()
  const { stay } = block
  const { bookingId } = stay
  const letGo = () => {
    if (bookingId === null) return
    void command.send({ kind: 'cancelBooking', carId: stay.carId, payload: { bookingId, reason: '' } })
  }
  return (
    <>
      <Cell name="car">
        <CarName carId={stay.carId} />
      </Cell>
      <Cell name="where">{names.bay(stay.bayId)}</Cell>
      <Cell name="when">
        {when.day(stay.from)} to {when.day(stay.to)}
      </Cell>
      <Cell name="held by" wide>
        {bookingId === null ? 'the plan alone: it moves when the plan does' : 'a booking: it is pinned there'}
        <PutDownNote carry={carry} />
      </Cell>
      {canChange && (
        <div className={styles.actionsCell}>
          <div className="row">
            <Button onClick={() => carry.take(block.key, stay)}>Move it</Button>
            {bookingId !== null && <Button onClick={letGo}>Let go of the booking</Button>}
          </div>
          <RefusalNote refusal={command.refusal} />
        </div>
      )}
    </>
  )
}

/** What is drawn as one block because it would be too small. */
export function ManyCells({
  works,
  onChoose,
}: {
  readonly works: readonly PlannedWork[]
  readonly onChoose: (key: string) => void
}) {
  const { names } = useShownPlan()
  const when = useWhen()
  return (
    <Cell name={`${works.length} pieces of work, drawn closer they stand apart`} wide>
      <ul className={styles.many}>
        {works.map((work) => (
          <li key={`${work.carId} ${targetKey(work.target)}`}>
            <span className="strong">{names.car(work.carId)}</span> <WorkLink work={work} />{' '}
            <span className="quiet">{spanWords(work.start, work.finish, when)}</span>{' '}
            {work.people[0] !== undefined && (
              <WordButton
                onClick={() => onChoose(workKey(work, work.people[0] as (typeof work.people)[number]))}
              >
                choose<span className="hidden-word"> {names.work(work)}</span>
              </WordButton>
            )}
          </li>
        ))}
      </ul>
    </Cell>
  )
}

export function MoveCells({ move }: { readonly move: PlannedMove }) {
  const { names } = useShownPlan()
  const when = useWhen()
  return (
    <>
      <Cell name="move of the shell">
        <CarName carId={move.carId} />
      </Cell>
      <Cell name="way">
        {move.from === null ? 'from outside' : `${names.bay(move.from)}`} to {names.bay(move.to)}
      </Cell>
      <Cell name="when">{spanWords(move.start, move.finish, when)}</Cell>
      <Cell name="who">{joinWords(move.people.map(names.person)) || 'nobody'}</Cell>
    </>
  )
}

/** A car by its hatching and its name, which leads to it. */
export function CarName({ carId }: { readonly carId: CarId }) {
  const { names } = useShownPlan()
  const row = names.row(carId)
  return (
    <div>
      {row !== undefined && <HatchSign hatch={row.hatch} isDecoration />}{' '}
      <Link to="/cars/$carId" params={{ carId }} className={`strong ${styles.link}`}>
        {names.car(carId)}
      </Link>
    </div>
  )
}

/** The same where the line leads somewhere else already. */
export function CarWords({ carId }: { readonly carId: CarId }) {
  const { names } = useShownPlan()
  const row = names.row(carId)
  return (
    <>
      {row !== undefined && <HatchSign hatch={row.hatch} isDecoration />}{' '}
      <span className="strong">{names.car(carId)}</span>{' '}
    </>
  )
}

/** Leads to the repair; a task stands on its car's page. */
export function WorkLink({ work }: { readonly work: PlannedWork }) {
  const { names } = useShownPlan()
  const { carId, target } = work
  const words = names.work(work)
  if (target.kind === 'task') {
    return (
      <Link to="/cars/$carId" params={{ carId }} className={styles.link}>
        {words}
      </Link>
    )
  }
  return (
    <Link
      to="/cars/$carId/repairs/$repairId"
      params={{ carId, repairId: target.repairId }}
      className={styles.link}
      aria-label={`${words}, ${effortWords(work, names)}`}
    >
      {words}
    </Link>
  )
}
