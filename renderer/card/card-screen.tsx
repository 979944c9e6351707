import { getRouteApi, Link } from '@tanstack/react-router'
import type { CarId } from '../../domain/ids.ts'
import { plural } from '../../domain/text/words.ts'
import { Button } from '../parts/form/button.tsx'
import { EmptyState, Notice, RefusalNote } from '../parts/form/notice.tsx'
import { ScreenHead } from '../parts/frame/screen-head.tsx'
import { CardSending } from './card-sending.tsx'
import { carById } from './card-shapes.ts'
import styles from './card.module.css'
import { ChoosePhotos } from './choose-photos.tsx'
import { LeftOutList } from './left-out-list.tsx'
import { LookThrough } from './look-through.tsx'
import { useAttach, type Attached } from './use-attach.ts'
import { useCard, type Card } from './use-card.ts'

const route = getRouteApi('/card')

/** Photos from a folder or a camera card: chosen, sent, matched to the work, and attached once a person has looked. */
export function CardScreen() {
  const { car = null } = route.useSearch()
  const card = useCard(car as CarId | null)
  const attaching = useAttach()
  const isBare = card.names.size === 0 && card.sending === null
  const isLooking = card.proposal !== null && card.sending === null
  return (
    <div className="stack">
      <ScreenHead title="Photos from a card" below={belowWords(card, car as CarId | null)} />
      {isBare && <FirstStep onChoose={card.add} />}
      {card.sending !== null && <CardSending sending={card.sending} onStop={card.stop} />}
      <RefusalNote refusal={card.refusal} />
      {card.refusal !== null && card.names.size > 0 && (
        <Button onClick={() => void card.askAgain()}>Try again</Button>
      )}
      {attaching.attached !== null && <AttachedNote attached={attaching.attached} card={card} />}
      {isLooking && card.proposal !== null && (
        <LookThrough card={card} proposal={card.proposal} attaching={attaching} />
      )}
      {card.sending === null && <LeftOutList files={card.leftOut} />}
    </div>
  )
}

function FirstStep({ onChoose }: { readonly onChoose: Card['add'] }) {
  return (
    <EmptyState title="No photos chosen yet" action={<ChoosePhotos isMain onChoose={onChoose} />}>
      Put the camera’s card in, then choose its photos or the whole folder. By the camera’s date each photo is
      set beside the work that somebody was clocked on at that moment. You look through it; nothing is
      attached before you say so.
    </EmptyState>
  )
}

function AttachedNote({ attached, card }: { readonly attached: Attached; readonly card: Card }) {
  const { done, kept, refused, carIds } = attached
  const nameOf = (carId: CarId) =>
    (card.proposal === null ? undefined : carById(card.proposal, carId))?.name ?? 'the car'
  return (
    <div className="stack-tight">
      {done + kept > 0 && (
        <Notice kind="done">
          {done > 0 && <p className="strong">{plural('photo', done)} attached.</p>}
          {kept > 0 && (
            <p>
              {plural('photo', kept)} {kept === 1 ? 'is' : 'are'} attached as soon as the host can be reached;
              this device keeps that in mind.
            </p>
          )}
          <p className={styles.links}>
            {carIds.map((carId) => (
              <Link
                key={carId}
                to="/cars/$carId"
                params={{ carId }}
                search={{ sheet: 'photos' }}
                className="reaching"
              >
                Photos of {nameOf(carId)}
              </Link>
            ))}
          </p>
        </Notice>
      )}
      {refused.map(({ sha256, refusal }) => (
        <Notice key={sha256} kind="refused">
          <p className="strong">
            Not attached, {card.names.get(sha256)?.[0] ?? 'a photo'}: {refusal.message}
          </p>
          <p>{refusal.next}</p>
        </Notice>
      ))}
    </div>
  )
}

function belowWords({ proposal }: Card, car: CarId | null): string {
  if (car === null) return 'of any car, set beside the work by the camera’s date'
  const known = proposal === null ? undefined : carById(proposal, car)
  return `of ${known?.name ?? 'one car'} alone, set beside the work by the camera’s date`
}
