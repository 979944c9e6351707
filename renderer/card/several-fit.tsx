import type { CardProposal } from '../../domain/import/photo-proposal.ts'
import { Button, WordButton } from '../parts/form/button.tsx'
import { placeWords } from './card-words.ts'
import styles from './card.module.css'
import type { PhotoActs } from './photo-acts.ts'
import { PhotoTiles } from './photo-tiles.tsx'
import { fitToPlace, placeKey, type PhotoGroup } from './places.ts'
import { SureMark } from './sure-mark.tsx'
import type { Card } from './use-card.ts'

/** Photos that fit more than one piece of work: one tap says which, for all of them. */
export function SeveralFit({
  group,
  card,
  proposal,
  acts,
}: {
  readonly group: PhotoGroup
  readonly card: Card
  readonly proposal: CardProposal
  readonly acts: PhotoActs
}) {
  const { photos } = group
  const fits = photos[0]?.fits ?? []
  return (
    <section className={styles.several}>
      <h2 className="minor">
        {photos.length === 1
          ? 'Which work does this photo show?'
          : `Which work do these ${photos.length} photos show?`}
      </h2>
      <p className="row small">
        <SureMark sure="several fit" /> {photos[0]?.says}
      </p>
      <ul className={styles.fits}>
        {fits.map((fit) => {
          const place = fitToPlace(fit)
          return (
            <li key={placeKey(place)}>
              <Button
                onClick={() => {
                  for (const photo of photos) {
                    const own = photo.fits.map(fitToPlace).find((each) => placeKey(each) === placeKey(place))
                    acts.place([photo], own ?? place)
                  }
                }}
              >
                {placeWords(proposal, place)}
              </Button>
              <span className="quiet small">{fit.why}</span>
            </li>
          )
        })}
        <li>
          <WordButton onClick={() => acts.ask(photos)}>something else</WordButton>
        </li>
      </ul>
      <PhotoTiles photos={photos} card={card} proposal={proposal} acts={acts} />
    </section>
  )
}
