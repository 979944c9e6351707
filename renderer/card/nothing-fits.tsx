import type { CardProposal } from '../../domain/import/photo-proposal.ts'
import { plural } from '../../domain/text/words.ts'
import { WordButton } from '../parts/form/button.tsx'
import styles from './card.module.css'
import type { PhotoActs } from './photo-acts.ts'
import { PhotoTiles } from './photo-tiles.tsx'
import type { PhotoGroup } from './places.ts'
import type { Card } from './use-card.ts'

/** Photos that no work lies close to, by the reason; they stay behind unless somebody says where they belong. */
export function NothingFits({
  groups,
  card,
  proposal,
  acts,
}: {
  readonly groups: readonly PhotoGroup[]
  readonly card: Card
  readonly proposal: CardProposal
  readonly acts: PhotoActs
}) {
  const count = groups.reduce((sum, { photos }) => sum + photos.length, 0)
  return (
    <section className={styles.car}>
      <h2>{plural('photo', count)} that nothing fits</h2>
      {groups.map(({ key, photos }) => (
        <div key={key} className={styles.group}>
          <div className={styles.why}>
            <p>{key}</p>
            {photos.length > 1 && (
              <WordButton onClick={() => acts.ask(photos)}>choose for all {photos.length}</WordButton>
            )}
          </div>
          <PhotoTiles photos={photos} card={card} proposal={proposal} acts={acts} />
        </div>
      ))}
    </section>
  )
}
