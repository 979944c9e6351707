import type { CardProposal } from '../../domain/import/photo-proposal.ts'
import { useState } from 'react'
import { plural } from '../../domain/text/words.ts'
import { EmptyState } from '../parts/form/notice.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import { AttachBar } from './attach-bar.tsx'
import { CardDays } from './card-days.tsx'
import { carById } from './card-shapes.ts'
import { placeWords } from './card-words.ts'
import styles from './card.module.css'
import { ChoosePhotos } from './choose-photos.tsx'
import { ClockBar } from './clock-bar.tsx'
import { NothingFits } from './nothing-fits.tsx'
import { PhotoTiles } from './photo-tiles.tsx'
import type { PhotoActs } from './photo-acts.ts'
import { PlaceDialog } from './place-dialog.tsx'
import { placePhotos, sortPhotos, type PlacedPhoto, type Said } from './places.ts'
import { SeveralFit } from './several-fit.tsx'
import type { AttachState } from './use-attach.ts'
import type { Card } from './use-card.ts'
import { TakenBy } from './taken-by.tsx'
import { WorkSection } from './work-section.tsx'

/** Every photo with where it goes and why, to be confirmed, changed or left out. */
export function LookThrough({
  card,
  proposal,
  attaching,
}: {
  readonly card: Card
  readonly proposal: CardProposal
  readonly attaching: AttachState
}) {
  const when = useWhen()
  const [said, setSaid] = useState<ReadonlyMap<string, Said>>(new Map())
  const [asked, setAsked] = useState<readonly PlacedPhoto[]>([])
  const all = placePhotos(proposal, said, card.reference?.sha256 ?? null)
  const photos = all.filter(({ sha256 }) => !attaching.gone.has(sha256))
  const sorted = sortPhotos(photos)
  const ready = photos.filter(({ ticked }) => ticked)
  const waiting = sorted.several.reduce((sum, group) => sum + group.photos.length, 0)

  const say = (about: readonly PlacedPhoto[], words: Said) =>
    setSaid((before) => {
      const after = new Map(before)
      for (const { sha256 } of about) after.set(sha256, { ...before.get(sha256), ...words })
      return after
    })
  const acts: PhotoActs = {
    tick: (about, ticked) => say(about, { ticked }),
    place: (about, place) => say(about, { place, ticked: true }),
    ask: setAsked,
  }
  const reference = all.find(({ sha256 }) => sha256 === card.reference?.sha256)
  const correction =
    proposal.correction === null || reference === undefined || reference.taken === null
      ? null
      : {
          words: proposal.correction,
          reference: `the photo ${reference.sha256.slice(0, 12)}, taken on ${when.day(reference.taken)} at ${when.time(reference.taken)}`,
        }
  const isEmpty = photos.length === 0
  return (
    <div className="stack">
      <div className={styles.head}>
        <TakenBy card={card} waiting={waiting} />
        <ClockBar card={card} photos={all} correction={proposal.correction} />
        <ChoosePhotos onChoose={card.add} />
      </div>
      <CardDays proposal={proposal} photos={photos} />
      {isEmpty && (
        <EmptyState title="Every photo has its place">
          All that were chosen are attached. Take the card out, or add the photos of the next one.
        </EmptyState>
      )}
      {sorted.several.map((group) => (
        <SeveralFit key={group.key} group={group} card={card} proposal={proposal} acts={acts} />
      ))}
      {sorted.placed.map(({ carId, works }) => (
        <section key={carId} className={styles.car} aria-label={carById(proposal, carId)?.name}>
          <h2>
            {carById(proposal, carId)?.name}{' '}
            <span className="quiet small">shell {carById(proposal, carId)?.shellNumber}</span>
          </h2>
          {works.map(({ place, groups }) => (
            <WorkSection
              key={placeWords(proposal, place)}
              place={place}
              groups={groups}
              card={card}
              proposal={proposal}
              acts={acts}
            />
          ))}
        </section>
      ))}
      {sorted.nothing.length > 0 && (
        <NothingFits groups={sorted.nothing} card={card} proposal={proposal} acts={acts} />
      )}
      {sorted.here.length > 0 && (
        <details className={styles.folded} open={sorted.here.length === photos.length}>
          <summary>{plural('photo', sorted.here.length)} here already</summary>
          <PhotoTiles photos={sorted.here} card={card} proposal={proposal} acts={acts} />
        </details>
      )}
      {!isEmpty && (
        <AttachBar
          ready={ready}
          waiting={waiting}
          attaching={attaching}
          onAttach={() => void attaching.attach(ready, correction)}
        />
      )}
      {asked.length > 0 && (
        <PlaceDialog
          photos={asked}
          proposal={proposal}
          onPlace={(place) => {
            acts.place(asked, place)
            setAsked([])
          }}
          onClose={() => setAsked([])}
        />
      )}
    </div>
  )
}
