import { useState, type ReactNode } from 'react'
import type { BayRow, PersonRow } from '../../domain/drawing/plan-rows.ts'
import { bayWords } from '../../domain/text/bay-words.ts'
import type { PlannedCar, PlannedWork } from '../../domain/plan/plan.ts'
import { joinWords, plural } from '../../domain/text/words.ts'
import { targetKey } from '../../domain/value/target.ts'
import { Button, WordButton } from '../parts/form/button.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import { dayOr } from './day-or.ts'
import { HistoryDialog } from './history-dialog.tsx'
import { PinDialog } from './pin-dialog.tsx'
import { useShownPlan } from './plan-context.ts'
import { PlanFiles } from './plan-files.tsx'
import styles from './plan.module.css'
import { daysLate, moveWords, spanWords } from './plan-words.ts'
import { CarName, CarWords, WorkLink } from './title-cells.tsx'
import { useIsNarrow } from './use-is-narrow.ts'

/** So many lines are shown before the rest is asked for. */
const FIRST = { wide: 8, narrow: 4 } as const

export function PersonLines({ row }: { readonly row: PersonRow }) {
  const { names } = useShownPlan()
  const when = useWhen()
  const { person, blocks } = row
  const off = person.off.map(({ from, to }) => when.range(from, to))
  return (
    <Group
      name={person.name}
      detail={[person.skills.join(', '), ...(off.length > 0 ? [`off ${joinWords(off)}`] : [])].join('; ')}
      action={<PlanFiles of="person" id={person.personId} name={person.name} />}
      none="Nothing planned."
      lines={blocks.map((block) => ({
        key: block.key,
        until: block.to,
        line:
          block.kind === 'work' ? (
            <WorkLine work={block.work} shows="car" />
          ) : block.kind === 'move' ? (
            <p>{moveWords(block.move, names, when)}</p>
          ) : null,
      }))}
    />
  )
}

export function BayLines({ row }: { readonly row: BayRow }) {
  const when = useWhen()
  const { bay, blocks } = row
  return (
    <Group
      name={bayWords(bay.name)}
      detail={bay.kinds.join(', ')}
      action={<PlanFiles of="bay" id={bay.bayId} name={bay.name} />}
      none="No car is planned into it."
      lines={blocks.map(({ key, carId, from, to, stay }) => ({
        key,
        until: to,
        line: (
          <div>
            <CarName carId={carId} />
            {when.day(from)} to {when.day(to)}
            {stay.bookingId !== null && <span className="strong">, pinned by a booking</span>}
          </div>
        ),
      }))}
    />
  )
}

export function CarLines({ car }: { readonly car: PlannedCar }) {
  const { plan, names } = useShownPlan()
  const when = useWhen()
  const [isHistoryOpen, setIsHistoryOpen] = useState(false)
  const late = daysLate(car, when)
  const work = plan.work.filter(({ carId }) => carId === car.carId).toSorted((a, b) => a.start - b.start)
  const promised = car.promised === null ? 'nothing promised' : `promised ${when.day(car.promised)}`
  return (
    <>
      <Group
        name={names.car(car.carId)}
        detail={`${promised}; finished ${dayOr(car.finish50, when.day)} with 50 %, ${dayOr(car.finish80, when.day)} with 80 %`}
        warning={late > 0 ? `${plural('day', late)} late with 80 %` : null}
        action={<Button onClick={() => setIsHistoryOpen(true)}>How it has moved</Button>}
        none="Nothing planned."
        lines={work.map((each) => ({
          key: targetKey(each.target),
          until: each.finish,
          line: <WorkLine work={each} shows="people" />,
        }))}
      />
      {isHistoryOpen && <HistoryDialog carId={car.carId} onClose={() => setIsHistoryOpen(false)} />}
    </>
  )
}

/** One piece of work: which, when, why then. */
function WorkLine({ work, shows }: { readonly work: PlannedWork; readonly shows: 'car' | 'people' }) {
  const { names, canChange } = useShownPlan()
  const when = useWhen()
  const [isPinning, setIsPinning] = useState(false)
  const pins = [...(work.pinned.people ? ['people'] : []), ...(work.pinned.day ? ['day'] : [])]
  return (
    <div className={styles.workLine}>
      <div>
        {shows === 'car' && <CarWords carId={work.carId} />}
        <WorkLink work={work} />
        {shows === 'people' && <span> by {joinWords(work.people.map(names.person)) || 'nobody'}</span>}
        <div>
          {spanWords(work.start, work.finish, when)}
          {work.bayId !== null && `, ${names.bay(work.bayId)}`}
        </div>
        <div className="quiet small">
          {work.begun ? 'begun; ' : ''}
          {work.why.words}
          {pins.length > 0 && <span className="strong">; pinned: {joinWords(pins)}</span>}
        </div>
      </div>
      {canChange && (
        <WordButton onClick={() => setIsPinning(true)}>
          pin it<span className="hidden-word"> {names.work(work)}</span>
        </WordButton>
      )}
      {isPinning && <PinDialog work={work} onClose={() => setIsPinning(false)} />}
    </div>
  )
}

interface Line {
  readonly key: string
  /** What is over by now is not listed. */
  readonly until: number
  readonly line: ReactNode
}

function Group({
  name,
  detail,
  warning = null,
  action,
  none,
  lines,
}: {
  readonly name: string
  readonly detail: string
  readonly warning?: string | null
  readonly action: ReactNode
  readonly none: string
  readonly lines: readonly Line[]
}) {
  const { view } = useShownPlan()
  const [isWhole, setIsWhole] = useState(false)
  const first = useIsNarrow() ? FIRST.narrow : FIRST.wide
  const ahead = lines.filter(({ until }) => until > view.now)
  const shown = isWhole ? ahead : ahead.slice(0, first)
  return (
    <section className={styles.listGroup}>
      <div className="spread">
        <h2 className="minor">{name}</h2>
        {action}
      </div>
      <p className="quiet small">{detail}</p>
      {warning !== null && <p className="is-accent strong">{warning}</p>}
      {ahead.length === 0 && <p>{none}</p>}
      <ol className="lines">
        {shown.map(({ key, line }) => (
          <li key={key} className={styles.listLine}>
            {line}
          </li>
        ))}
      </ol>
      {ahead.length > shown.length && (
        <Button onClick={() => setIsWhole(true)}>
          Show {ahead.length - shown.length} more<span className="hidden-word"> of {name}</span>
        </Button>
      )}
    </section>
  )
}
