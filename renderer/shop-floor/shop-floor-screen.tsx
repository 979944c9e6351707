import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { useState } from 'react'
import type { Moment } from '../../domain/car.ts'
import { bayWords } from '../../domain/text/bay-words.ts'
import { plural } from '../../domain/text/words.ts'
import type { CarLine, ShopFloorView } from '../../domain/views/view-shapes.ts'
import { api } from '../client.ts'
import { Button, WordButton } from '../parts/form/button.tsx'
import { CopiesWarning, useIsWarningKnown } from './copies-warning.tsx'
import { FirstSteps } from '../parts/frame/first-steps.tsx'
import { FloorPlan, type FloorBayView } from './floor-plan.tsx'
import { MarkSign } from '../parts/gates/gate-strip.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { Menu } from '../parts/form/menu.tsx'
import { EmptyState } from '../parts/form/notice.tsx'
import { onDemand } from '../parts/frame/on-demand.tsx'
import { ScreenHead, type Figure } from '../parts/frame/screen-head.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import { AttentionToday } from './attention-today.tsx'
import { AwayList } from './away-list.tsx'
import { BookingList } from './booking-list.tsx'
import { OnTheClock } from './on-the-clock.tsx'
import { PhotosToday } from './photos-today.tsx'
import styles from './shop-floor.module.css'
import { WaitingForYou } from './waiting-for-you.tsx'
import { WatchList } from '../parts/gates/watch-list.tsx'

const BookBayDialog = onDemand(async () => (await import('./book-bay-dialog.tsx')).BookBayDialog)
const MoveShellDialog = onDemand(async () => (await import('./move-shell-dialog.tsx')).MoveShellDialog)
const SendAwayDialog = onDemand(async () => (await import('./send-away-dialog.tsx')).SendAwayDialog)

/** What the manager is about to do on the floor. */
type Doing =
  | { readonly kind: 'book'; readonly car: CarLine | null; readonly bay: FloorBayView | null }
  | { readonly kind: 'move'; readonly car: CarLine }
  | { readonly kind: 'send away'; readonly car: CarLine }

/** Times on it go by the clock, so it is read again without any change on the host too. */
const READ_EVERY_MS = 60_000

export function ShopFloorScreen() {
  const query = useQuery(api.shopFloor.queryOptions(undefined, { refetchInterval: READ_EVERY_MS }))
  const isWarningKnown = useIsWarningKnown()
  return <Loaded query={query}>{(view) => isWarningKnown && <ShopFloor view={view} />}</Loaded>
}

function ShopFloor({ view }: { readonly view: ShopFloorView }) {
  const when = useWhen()
  const [doing, setDoing] = useState<Doing | null>(null)
  const close = () => setDoing(null)
  return (
    <div className="stack">
      <ScreenHead
        title="Shop floor"
        below={`${when.dayAndTime(view.now)}; ${whoIsIn(view)}`}
        figures={headFigures(view)}
      />
      <FirstSteps />
      <CopiesWarning />
      <div className={styles.live}>
        <OnTheClock view={view} />
        <PhotosToday photos={view.photosToday} />
      </div>
      {view.bays.length > 0 && isWithoutCars(view) && <NoCars />}
      {view.bays.length === 0 && <NoBays />}
      {view.bays.length > 0 && (
        <div className={styles.floor}>
          <FloorPlan
            bays={view.bays}
            carWords={(car) => <CarOnFloor car={car} finish80={finishOf(view, car)} />}
            carAction={(car) => <CarActions car={car} onDo={setDoing} />}
            emptyWords={(bay) => <EmptyBay bay={bay} />}
            bayAction={(bay) => (
              <WordButton onClick={() => setDoing({ kind: 'book', car: null, bay })}>
                book<span className="hidden-word"> {bayWords(bay.name)}</span>
              </WordButton>
            )}
          />
          <AttentionToday groups={view.attention} />
        </div>
      )}
      <div className={styles.below}>
        <WaitingForYou forYou={view.forYou} />
        <div className="stack">
          <WatchList watches={view.watches} />
          <AwayList away={view.away} bays={view.bays} />
          <Nowhere cars={view.nowhere} onDo={setDoing} />
        </div>
        <div className="stack">
          <BookingList bays={view.bays} onBook={() => setDoing({ kind: 'book', car: null, bay: null })} />
        </div>
      </div>
      <Today sentences={view.today} />
      {doing?.kind === 'book' && (
        <BookBayDialog view={view} car={doing.car} bay={doing.bay} onClose={close} />
      )}
      {doing?.kind === 'move' && <MoveShellDialog bays={view.bays} car={doing.car} onClose={close} />}
      {doing?.kind === 'send away' && <SendAwayDialog car={doing.car} onClose={close} />}
    </div>
  )
}

const whoIsIn = ({ peopleIn, clockedOn }: ShopFloorView): string =>
  peopleIn + clockedOn.length === 0
    ? 'nobody is in'
    : `${plural('person', peopleIn, 'people')} in, ${clockedOn.length} clocked on`

function headFigures({ forYou, attention, watches }: ShopFloorView): readonly Figure[] {
  const astray = attention.reduce((sum, { lines }) => sum + lines.length, 0)
  const mine = [
    ...counted('warning', astray),
    ...counted('release', forYou.releases.length),
    ...counted('review', forYou.reviews.length),
    ...counted('fault', forYou.faults.length),
  ]
  const over = watches.filter((watch) => watch.over).length
  return [
    {
      label: 'waiting for you',
      value: mine.join(', ') || 'nothing',
      ...(mine.length > 0 && { tone: 'accent' }),
    },
    {
      label: 'waiting for owners',
      value: forYou.decisions.length === 0 ? 'nothing' : plural('decision', forYou.decisions.length),
    },
    {
      label: 'fire watches',
      value: watchWords(watches.length - over, over),
      ...(over > 0 && { tone: 'accent' }),
    },
  ]
}

function watchWords(running: number, over: number): string {
  const words = [...(running > 0 ? [`${running} running`] : []), ...(over > 0 ? [`${over} over`] : [])]
  return words.join(', ') || 'none'
}

const counted = (noun: string, count: number): readonly string[] => (count === 0 ? [] : [plural(noun, count)])

const finishOf = ({ finishes }: ShopFloorView, { carId }: CarLine): Moment | null =>
  finishes.find((each) => each.carId === carId)?.finish80 ?? null

function CarOnFloor({ car, finish80 }: { readonly car: CarLine; readonly finish80: Moment | null }) {
  const when = useWhen()
  const done = finish80 === null ? null : when.dateOf(finish80)
  const isInDanger = car.latePromise || (done !== null && car.promised !== null && done > car.promised)
  return (
    <>
      <Link to="/cars/$carId" params={{ carId: car.carId }} className="strong reaching">
        {car.name}
      </Link>
      <div>{car.next}</div>
      {car.held !== null && (
        <div className={`is-accent ${styles.held}`} title={car.held}>
          <MarkSign mark="held" /> held: {car.held}
        </div>
      )}
      {car.onIt.length > 0 && <div className="quiet">{car.onIt.join(', ')} on it</div>}
      {done !== null && (
        <div className="quiet">
          done by {when.day(done)} <span className={styles.whole}>(80 %)</span>
        </div>
      )}
      {isInDanger && <div className="is-accent">promised date in danger</div>}
    </>
  )
}

function CarActions({ car, onDo }: { readonly car: CarLine; readonly onDo: (doing: Doing) => void }) {
  return (
    <Menu
      className="word-button"
      label={
        <>
          move or book<span className="hidden-word"> the {car.name}</span>
        </>
      }
      entries={[
        { id: 'move', words: 'Move the shell now', onChoose: () => onDo({ kind: 'move', car }) },
        { id: 'book', words: 'Book it into a bay', onChoose: () => onDo({ kind: 'book', car, bay: null }) },
        { id: 'away', words: 'Send it away', onChoose: () => onDo({ kind: 'send away', car }) },
      ]}
    />
  )
}

function EmptyBay({ bay }: { readonly bay: FloorBayView }) {
  const when = useWhen()
  const next = bay.bookings[0]
  return (
    <>
      <div className="strong">empty</div>
      {next !== undefined && (
        <div className="quiet">
          {next.carName}, {when.range(next.from, next.to)}
        </div>
      )}
    </>
  )
}

function NoBays() {
  return (
    <EmptyState
      title="The floor has no bays yet"
      action={
        <Link to="/workshop" search={{ sheet: 'bays' }} className="button main">
          Arrange the bays
        </Link>
      }
    >
      Put the bays where they are in the workshop; the cars are then drawn in them, with what each of them
      waits for.
    </EmptyState>
  )
}

const isWithoutCars = ({ bays, away, nowhere }: ShopFloorView): boolean =>
  bays.every(({ cars, bookings }) => cars.length + bookings.length === 0) &&
  away.length + nowhere.length === 0

function NoCars() {
  return (
    <EmptyState
      title="No car stands here yet"
      action={
        <Link to="/cars" search={{ add: true }} className="button main">
          Add the first one
        </Link>
      }
    >
      Each car is drawn in its bay, with what is next on it, what it waits for and who is on it. One that is
      in work and in no bay stands below the floor until you say where it is.
    </EmptyState>
  )
}

/** So many cars are spoken of at once; a large workshop has twenty. */
const SENTENCES_AT_FIRST = 9

function Today({ sentences }: { readonly sentences: readonly string[] }) {
  const [isAll, setIsAll] = useState(false)
  if (sentences.length === 0) return null
  const more = sentences.length - SENTENCES_AT_FIRST
  return (
    <section className="stack-tight">
      <h2 className="minor">Today</h2>
      <div className={styles.today}>
        {(isAll ? sentences : sentences.slice(0, SENTENCES_AT_FIRST)).map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
      </div>
      {more > 0 && (
        <WordButton aria-expanded={isAll} onClick={() => setIsAll(!isAll)}>
          {isAll ? 'fold' : `and ${more} more`}
          <span className="hidden-word">: Today</span>
        </WordButton>
      )}
    </section>
  )
}

function Nowhere({
  cars,
  onDo,
}: {
  readonly cars: readonly CarLine[]
  readonly onDo: (doing: Doing) => void
}) {
  if (cars.length === 0) return null
  return (
    <section>
      <h2 className="minor">In no bay</h2>
      <ul className="lines">
        {cars.map((car) => (
          <li key={car.carId} className="line">
            <Link to="/cars/$carId" params={{ carId: car.carId }}>
              {car.name}
            </Link>
            <span className="row">
              <span className="quiet small">{car.next}</span>
              <Button onClick={() => onDo({ kind: 'move', car })}>It is here</Button>
            </span>
          </li>
        ))}
      </ul>
    </section>
  )
}
