import { Link } from '@tanstack/react-router'
import { useState } from 'react'
import { hours } from '../../domain/text/words.ts'
import type { DaySheetView } from '../../domain/views/view-shapes.ts'
import { useActor } from '../parts/sign/actor.tsx'
import { WordButton } from '../parts/form/button.tsx'
import { carsOfSeveral, lineChoices } from '../parts/clock/clock-choices.ts'
import { FirstSteps } from '../parts/frame/first-steps.tsx'
import { LongList } from '../parts/frame/long-list.tsx'
import { EmptyState, RefusalNote } from '../parts/form/notice.tsx'
import { onDemand } from '../parts/frame/on-demand.tsx'
import { ScreenHead } from '../parts/frame/screen-head.tsx'
import { SteppedList } from '../parts/frame/stepped-list.tsx'
import { useClock } from '../parts/clock/use-clock.tsx'
import { WatchList } from '../parts/gates/watch-list.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import styles from './day-sheet.module.css'
import { EntryTable } from './entry-table.tsx'
import { MyClock } from './my-clock.tsx'
import { ToConfirm } from './to-confirm.tsx'
import { useLinePhotos } from './use-line-photos.ts'
import { WaitingLine } from './waiting-line.tsx'
import { WorkLine } from './work-line.tsx'

const LogTimeDialog = onDemand(async () => (await import('./log-time-dialog.tsx')).LogTimeDialog)
const WorkshopTimeDialog = onDemand(
  async () => (await import('./workshop-time-dialog.tsx')).WorkshopTimeDialog,
)
const ClockSeveralDialog = onDemand(
  async () => (await import('../parts/clock/clock-several-dialog.tsx')).ClockSeveralDialog,
)

type Doing = 'several' | 'workshop' | 'log' | null

/** In plan order, so that these are the work of many days. */
const WORK_AT_ONCE = 32
/** A window of 1920 x 1080 shows no more of them. */
const WORK_IN_SIGHT = 8

/** What can be done is what one looks for; of what waits, the first ones are seen at once. */
const WAITING_AT_FIRST = 8

/** What one person can do now in plan order, their clock and hours, what waits and why. */
export function DaySheet({ view }: { readonly view: DaySheetView }) {
  const when = useWhen()
  const { person, choosePerson } = useActor()
  const clock = useClock()
  const photos = useLinePhotos()
  const [doing, setDoing] = useState<Doing>(null)
  const [isAllWaiting, setIsAllWaiting] = useState(false)
  const choices = lineChoices(view.canDo)
  const waitingMore = view.waits.length - WAITING_AT_FIRST
  return (
    <div className={`stack ${styles.sheet}`}>
      <ScreenHead
        title={view.person}
        below={
          <>
            {when.day(view.now)}
            {view.dayEnds !== null && `, until ${when.time(view.dayEnds)}`}
            {view.skills.length > 0 && `; ${view.skills.join(', ')}`}
            {person !== null && (
              <>
                {'. '}
                <WordButton className={styles.inline} onClick={() => choosePerson(null)}>
                  not you?
                </WordButton>
              </>
            )}
          </>
        }
        figures={[
          { label: 'today', value: hours(view.hoursToday) },
          { label: 'this week', value: hours(view.hoursThisWeek) },
        ]}
      />
      <FirstSteps />
      <MyClock view={view} clock={clock} photos={photos} onWorkshop={() => setDoing('workshop')} />
      <div className={styles.more}>
        {carsOfSeveral(choices).size > 0 && (
          <WordButton onClick={() => setDoing('several')}>several at once</WordButton>
        )}
        <WordButton onClick={() => setDoing('workshop')}>workshop time</WordButton>
        <WordButton onClick={() => setDoing('log')}>log time by hand</WordButton>
      </div>
      <RefusalNote refusal={clock.command.refusal} />
      <RefusalNote refusal={photos.refusal} />
      <ToConfirm clocks={view.toConfirm} />
      <WatchList watches={view.watches} />
      <section>
        <h2>You can do now</h2>
        {view.canDo.length === 0 && <NothingToDo view={view} />}
        <SteppedList
          items={view.canDo}
          step={WORK_AT_ONCE}
          page={WORK_IN_SIGHT}
          title="You can do now"
          className={styles.work}
        >
          {(line) => (
            <WorkLine
              key={`${line.repairId ?? line.taskId}`}
              line={line}
              view={view}
              clock={clock}
              photos={photos}
            />
          )}
        </SteppedList>
      </section>
      {view.waits.length > 0 && (
        <section>
          <h2>Waits</h2>
          <LongList
            items={isAllWaiting ? view.waits : view.waits.slice(0, WAITING_AT_FIRST)}
            className={`lines ${styles.waits}`}
          >
            {(line) => <WaitingLine key={`${line.repairId ?? line.taskId}`} line={line} view={view} />}
          </LongList>
          {waitingMore > 0 && (
            <WordButton aria-expanded={isAllWaiting} onClick={() => setIsAllWaiting(!isAllWaiting)}>
              {isAllWaiting ? 'fold' : `and ${waitingMore} more`}
              <span className="hidden-word">: Waits</span>
            </WordButton>
          )}
        </section>
      )}
      <EntryTable view={view} />
      {doing === 'several' && (
        <ClockSeveralDialog choices={choices} clock={clock} onClose={() => setDoing(null)} />
      )}
      {doing === 'workshop' && <WorkshopTimeDialog clock={clock} onClose={() => setDoing(null)} />}
      {doing === 'log' && <LogTimeDialog view={view} onClose={() => setDoing(null)} />}
      {clock.dialog}
      {photos.inputs}
    </div>
  )
}

function NothingToDo({ view }: { readonly view: DaySheetView }) {
  return (
    <EmptyState
      title="Nothing is free to be worked on"
      action={
        view.waits.length === 0 && (
          <Link to="/cars" className="button">
            What stands in the workshop
          </Link>
        )
      }
    >
      {view.skills.length === 0
        ? 'No skills are entered for you yet; the manager does that under Workshop.'
        : view.waits.length > 0
          ? 'Below stands what waits, and who can clear it.'
          : 'What you can do stands here in the order of the plan, once a car is in work, its hours are agreed and a gate needs your skills. Ask the manager what comes next.'}
    </EmptyState>
  )
}
