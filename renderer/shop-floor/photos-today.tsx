import { useState } from 'react'
import { plural } from '../../domain/text/words.ts'
import type { PhotoOfCar, ShopFloorView } from '../../domain/views/view-shapes.ts'
import { WordButton } from '../parts/form/button.tsx'
import { PhotoGrid } from '../parts/photos/photo-grid.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import styles from './shop-floor.module.css'

/** A row on a wide screen, two on a narrow one. */
const FEW = 4

/** The newest photos of the day; a tap shows one large. */
export function PhotosToday({ photos }: { readonly photos: ShopFloorView['photosToday'] }) {
  const [isLong, setIsLong] = useState(false)
  const { count, newest } = photos
  return (
    <section className="stack-tight" aria-label="Photos of today">
      <div className={styles.photosHead}>
        <h2 className="minor">
          Photos of today {count > 0 && <span className={styles.count}>{count}</span>}
        </h2>
        {newest.length > FEW && (
          <WordButton onClick={() => setIsLong(!isLong)}>
            {isLong ? 'only the newest' : moreWords(photos)}
          </WordButton>
        )}
      </div>
      {count === 0 ? (
        <p className="quiet">None yet. They stand here as soon as they are taken.</p>
      ) : (
        <div className={styles.photos}>
          <PhotoGrid
            photos={isLong ? newest : newest.slice(0, FEW)}
            below={(photo) => <PhotoWords photo={photo} />}
          />
        </div>
      )}
    </section>
  )
}

const moreWords = ({ newest }: ShopFloorView['photosToday']): string =>
  `show ${plural('photo', newest.length - FEW)} more`

function PhotoWords({ photo }: { readonly photo: PhotoOfCar }) {
  const when = useWhen()
  const [serves] = photo.serves
  const where = [serves?.repairName, serves?.gate].filter(Boolean).join(': ')
  return (
    <>
      <span className={`${styles.of} strong`}>{photo.carName}</span>
      <span className={styles.of}>{where === '' ? 'the car' : where}</span>
      <span className={`${styles.of} quiet`}>
        {photo.by}, {when.time(photo.taken)}
      </span>
    </>
  )
}
