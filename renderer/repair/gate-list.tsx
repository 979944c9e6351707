import type { RepairView } from '../../domain/views/view-shapes.ts'
import { hours, plural } from '../../domain/text/words.ts'
import { useActor } from '../parts/sign/actor.tsx'
import { MarkSign } from '../parts/gates/gate-strip.tsx'
import { LeftWords } from '../parts/clock/left-words.tsx'
import { Menu } from '../parts/form/menu.tsx'
import { useClock, type Clock } from '../parts/clock/use-clock.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import { type Doing, useRepair } from './repair-context.ts'
import styles from './repair.module.css'

type GateView = RepairView['gates'][number]

/** Every gate with when it was done and by whom, its hours, photos and note, and what may be done about it. */
export function GateList() {
  const { view } = useRepair()
  const clock = useClock()
  return (
    <section>
      <h3>Gates</h3>
      <ul className="lines">
        {view.gates.map((gate) => (
          <li key={gate.gate}>
            <GateRow gate={gate} clock={clock} />
          </li>
        ))}
      </ul>
      {clock.dialog}
    </section>
  )
}

function GateRow({ gate, clock }: { readonly gate: GateView; readonly clock: Clock }) {
  const { mark, hours: pair, left, photos, note, reopenedWhy, plan } = gate
  return (
    <div className={styles.gate}>
      <MarkSign mark={mark.mark} />
      <span className={mark.mark === 'next' || mark.mark === 'held' ? 'strong' : undefined}>{gate.gate}</span>
      <span className="small quiet">
        <DoneWords gate={gate} />
        {pair.spent > 0 || pair.authorised > 0
          ? `; ${hours(pair.spent)} of ${hours(pair.authorised)}`
          : `; ${hours(plan.hours.likely)} likely`}
        {left !== null && (
          <>
            ; <LeftWords left={left} />
          </>
        )}
        {photos.length > 0 && `; ${plural('photo', photos.length)}`}
        {pair.rework > 0 && <span className="is-accent">, {hours(pair.rework)} rework</span>}
        {reopenedWhy !== null && <span className="is-accent">; reopened: {reopenedWhy}</span>}
        {note !== '' && <span className="pre">; {note}</span>}
      </span>
      <GateMenu gate={gate} clock={clock} />
    </div>
  )
}

function DoneWords({ gate: { mark } }: { readonly gate: GateView }) {
  const when = useWhen()
  if (mark.done === null) return mark.mark
  const by = mark.by === null ? '' : `, ${mark.by}`
  return `${mark.mark} ${when.day(mark.done)}${by}`
}

/** Somebody has worked on it and it is not done. */
export const isBegun = ({ number, hours: pair, left }: GateView): boolean =>
  number === null && (pair.spent > 0 || left !== null)

function GateMenu({ gate, clock }: { readonly gate: GateView; readonly clock: Clock }) {
  const { view, open } = useRepair()
  const { manager } = useActor()
  const isDone = gate.number !== null
  const work = {
    carId: view.car.carId,
    targets: [{ kind: 'gate' as const, repairId: view.repair.id, gate: gate.gate }],
    hotWork: gate.plan.hotWork,
    isRework: isDone,
  }
  const entry = (words: string, doing: Doing) => ({ id: doing.kind, words, onChoose: () => open(doing) })
  const sayLeft = entry('Say what is still to do', { kind: 'say left', gate: gate.gate })
  const reopen = entry('Reopen it, with a cause', { kind: 'reopen', gate: gate.gate })
  const plan = entry('Change hours, skill, what it asks for', { kind: 'gate plan', gate: gate.gate })
  const notNeeded = entry('Mark it not needed', { kind: 'not needed', gate: gate.gate })
  return (
    <Menu
      className="word-button"
      label={
        <>
          more<span className="hidden-word"> about {gate.gate}</span>
        </>
      }
      entries={[
        {
          id: 'clock',
          words: isDone ? 'Clock in on it: rework' : 'Clock in on it',
          onChoose: () => clock.start(work),
        },
        ...(isBegun(gate) ? [sayLeft] : []),
        ...(gate.photos.length > 0
          ? [entry(`See ${plural('photo', gate.photos.length)}`, { kind: 'gate photos', gate: gate.gate })]
          : []),
        ...(manager === null ? [] : isDone ? [reopen] : [plan, notNeeded]),
      ]}
    />
  )
}
