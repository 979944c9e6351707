import { WordButton } from '../parts/form/button.tsx'
import { workKey, type CardProposal } from '../../domain/import/photo-proposal.ts'
import { joinWords } from '../../domain/text/words.ts'
import { inSentence } from '../../domain/views/work-words.ts'
import { carById } from './card-shapes.ts'
import { workWords } from './card-words.ts'
import styles from './card.module.css'
import type { PhotoActs } from './photo-acts.ts'
import { PhotoTiles } from './photo-tiles.tsx'
import type { PhotoGroup, Place } from './places.ts'
import { SureMark } from './sure-mark.tsx'
import type { Card } from './use-card.ts'

/** The photos of one gate or task, by the reason why they belong there. */
export function WorkSection({
  place,
  groups,
  card,
  proposal,
  acts,
}: {
  readonly place: Place
  readonly groups: readonly PhotoGroup[]
  readonly card: Card
  readonly proposal: CardProposal
  readonly acts: PhotoActs
}) {
  const lacks = lacksOf(proposal, place)
  return (
    <section className={styles.work}>
      <h3>{workWords(carById(proposal, place.carId), place.serves)}</h3>
      {lacks.length > 0 && (
        <p className="quiet small">It still asks for: {joinWords(lacks.map(inSentence))}.</p>
      )}
      {groups.map(({ key, photos }) => {
        const [first] = photos
        const fit = first?.fit ?? null
        const isAll = photos.every(({ ticked }) => ticked)
        return (
          <div key={key} className={styles.group}>
            <div className={styles.why}>
              <p>
                <SureMark sure={first?.byHand === true ? 'by hand' : (first?.sure ?? 'none')} />
                {fit !== null && <span>{fit.why}</span>}
                {first !== undefined && first.says !== '' && <span className="is-accent">{first.says}</span>}
              </p>
              {photos.length > 1 && (
                <span className="row">
                  <WordButton onClick={() => acts.tick(photos, !isAll)}>
                    {isAll ? `leave all ${photos.length} out` : `take all ${photos.length}`}
                  </WordButton>
                  <WordButton onClick={() => acts.ask(photos)}>move all</WordButton>
                </span>
              )}
            </div>
            <PhotoTiles photos={photos} card={card} proposal={proposal} acts={acts} />
          </div>
        )
      })}
    </section>
  )
}

function lacksOf({ lacks }: CardProposal, { carId, serves }: Place): readonly string[] {
  if (serves.what !== 'gate') return []
  return lacks[workKey(carId, { kind: 'gate', repairId: serves.repairId, gate: serves.gate })] ?? []
}
