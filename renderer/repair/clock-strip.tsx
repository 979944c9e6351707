import { useState } from 'react'
import type { ClockView } from '../../domain/views/shared-views.ts'
import type { DaySheetLine, RepairView } from '../../domain/views/view-shapes.ts'
import { joinWords } from '../../domain/text/words.ts'
import { useWaitingClock } from '../outbox/waiting-clock.ts'
import { useActor } from '../parts/sign/actor.tsx'
import { WordButton } from '../parts/form/button.tsx'
import { RefusalNote } from '../parts/form/notice.tsx'
import { lineChoices, type ClockChoice } from '../parts/clock/clock-choices.ts'
import { ClockSeveralDialog } from '../parts/clock/clock-several-dialog.tsx'
import { useClock } from '../parts/clock/use-clock.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import { useRepair } from './repair-context.ts'
import styles from './repair.module.css'

/** Who is on this repair since when; one tap clocks in or out. */
export function ClockStrip() {
  const { view } = useRepair()
  const { person, manager } = useActor()
  const me = person ?? manager
  const when = useWhen()
  const clock = useClock()
  const own = ownChoice(view)
  const choices = [own, ...otherChoices(view, clock.canDo)]
  const known = view.clocks.find(({ personId }) => personId === me?.id) ?? null
  const running = useWaitingClock(known ?? clock.mine, me?.id ?? null)
  const mine =
    running !== null && (running.entryId === known?.entryId || isOn(running, view)) ? running : undefined
  const [isChoosing, setIsChoosing] = useState(false)
  const others = view.clocks.filter(({ personId }) => personId !== me?.id)
  return (
    <>
      <div className={clock.isKnown ? styles.clock : `${styles.clock} ${styles.unknown}`}>
        {mine !== undefined ? (
          <>
            <span className="strong">
              {mine.person}, on this since {when.short(mine.since)}
            </span>
            <WordButton onClick={() => clock.stop(mine)}>stop clock</WordButton>
          </>
        ) : (
          <>
            <span className="quiet">
              {others.length > 0
                ? `${joinWords(others.map((each) => each.person))} on it`
                : clock.mine === null
                  ? 'no clock on this'
                  : `${me?.name} is on ${clock.mine.what}`}
            </span>
            {!view.repair.retired && (
              <WordButton onClick={() => clock.start({ ...own, targets: [own.target] })}>
                {clock.mine === null ? 'clock in here' : 'switch to this'}
              </WordButton>
            )}
            {!view.repair.retired && choices.length > 1 && (
              <WordButton onClick={() => setIsChoosing(true)}>with other work</WordButton>
            )}
          </>
        )}
      </div>
      <RefusalNote refusal={clock.command.refusal} />
      {isChoosing && (
        <ClockSeveralDialog
          choices={choices}
          chosen={[own.key]}
          clock={clock}
          onClose={() => setIsChoosing(false)}
        />
      )}
      {clock.dialog}
    </>
  )
}

const isOn = ({ on }: ClockView, { repair }: RepairView): boolean =>
  on.kind === 'work' && on.targets.some((target) => target.kind === 'gate' && target.repairId === repair.id)

/** The next gate, or rework on the last one when all are done. */
function ownChoice({ car, repair, next, gates }: RepairView): ClockChoice {
  const gate = next?.gate ?? gates.findLast(({ mark }) => mark.mark === 'passed')?.gate ?? 'painted'
  return {
    carId: car.carId,
    target: { kind: 'gate', repairId: repair.id, gate },
    hotWork: gates.find((each) => each.gate === gate)?.plan.hotWork ?? false,
    isRework: next === null,
    key: repair.id,
    words: `${repair.name}: ${gate}`,
    carName: car.name,
  }
}

/** What else the person can do on this car. */
const otherChoices = ({ car, repair }: RepairView, canDo: readonly DaySheetLine[]): readonly ClockChoice[] =>
  lineChoices(canDo.filter(({ carId, repairId }) => carId === car.carId && repairId !== repair.id))
