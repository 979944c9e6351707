import type { CardProposal } from '../../domain/import/photo-proposal.ts'
import { plural } from '../../domain/text/words.ts'
import { photoUrl } from '../client.ts'
import { WordButton } from '../parts/form/button.tsx'
import { useWhen, type When } from '../parts/frame/when.tsx'
import { carById } from './card-shapes.ts'
import { placeWords, showsWords } from './card-words.ts'
import styles from './card.module.css'
import type { PhotoActs } from './photo-acts.ts'
import type { PlacedPhoto } from './places.ts'
import type { Card } from './use-card.ts'

/** Photos with a tick each; a tap on the picture takes it or leaves it out. */
export function PhotoTiles({
  photos,
  card,
  proposal,
  acts,
}: {
  readonly photos: readonly PlacedPhoto[]
  readonly card: Card
  readonly proposal: CardProposal
  readonly acts: PhotoActs
}) {
  const when = useWhen()
  return (
    <ul className="photo-thumbs photo-choices">
      {photos.map((photo) => (
        <li key={photo.sha256} className={styles.tile}>
          <Picture photo={photo} name={nameOf(card, photo)} when={when} acts={acts} />
          <Words photo={photo} card={card} proposal={proposal} when={when} />
          <WordButton className={styles.change} onClick={() => acts.ask([photo])}>
            {photo.place === null ? 'choose' : 'change'}
            <span className="hidden-word"> where {nameOf(card, photo)} belongs</span>
          </WordButton>
        </li>
      ))}
    </ul>
  )
}

function Picture({
  photo,
  name,
  when,
  acts,
}: {
  readonly photo: PlacedPhoto
  readonly name: string
  readonly when: When
  readonly acts: PhotoActs
}) {
  const alt = photo.taken === null ? name : `${name}, ${when.dayAndTime(photo.taken)}`
  const image = (
    <img
      src={photoUrl(photo.sha256, 'thumb')}
      alt={alt}
      loading="lazy"
      decoding="async"
      width={320}
      height={240}
    />
  )
  if (photo.place === null || photo.isHere) return <div className={styles.picture}>{image}</div>
  return (
    <label className={styles.picture}>
      <input
        type="checkbox"
        checked={photo.ticked}
        onChange={(event) => acts.tick([photo], event.target.checked)}
      />
      {image}
    </label>
  )
}

function Words({
  photo,
  card,
  proposal,
  when,
}: {
  readonly photo: PlacedPhoto
  readonly card: Card
  readonly proposal: CardProposal
  readonly when: When
}) {
  const { place, taken, fit, here } = photo
  const shows = place === null ? '' : showsWords(carById(proposal, place.carId), place.serves)
  const [nearest] = photo.others
  const twins = (card.names.get(photo.sha256)?.length ?? 1) - 1
  return (
    <div className="small">
      <span className="strong">{taken === null ? 'no date' : when.short(taken)}</span>
      {shows !== '' && `, ${shows}`}
      {place === null && photo.sure === 'none' && nearest !== undefined && (
        <span className={styles.says}>The nearest: {nearest.why}.</span>
      )}
      {fit !== null && fit.doesNotCount !== null && (
        <span className={`${styles.says} is-accent`}>{fit.doesNotCount}</span>
      )}
      {photo.sha256 === card.reference?.sha256 && (
        <span className={styles.says}>It has put the clock right.</span>
      )}
      {twins > 0 && <span className={styles.says}>{plural('more file', twins)} with the same picture</span>}
      {here.map((each) => (
        <span key={`${each.carId}${each.at}`} className={styles.says}>
          Here already since {when.short(each.at)}, by {each.by}:{' '}
          {each.serves.map((serves) => placeWords(proposal, { carId: each.carId, serves })).join('; ')}
        </span>
      ))}
    </div>
  )
}

const nameOf = ({ names }: Card, { sha256 }: PlacedPhoto): string => names.get(sha256)?.[0] ?? 'photo'
