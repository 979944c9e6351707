import { useState } from 'react'
import { MARK_LINE } from '../../domain/photo-marks/draw-marks.ts'
import { marksWords } from '../../domain/photo-marks/marks-words.ts'
import type { ReportPhoto } from '../../domain/report/owner-week-shapes.ts'
import type { Crop } from '../../domain/report/report-choices.ts'
import { photoUrl } from '../client.ts'
import { MarksOverlay } from '../parts/photos/marks-overlay.tsx'
import styles from './crop.module.css'

/** Of the place that a photo has in the letter, and of most cameras. */
const PLACE_RATIO = 4 / 3
/** Of the height of the part that is shown; marks are drawn in them. */
const UNITS = 300

/** The part of a photo that the letter shows, in a place that keeps its size. */
export function CroppedPhoto({ photo, crop }: { readonly photo: ReportPhoto; readonly crop: Crop }) {
  const [ratio, setRatio] = useState(PLACE_RATIO)
  const shownRatio = (ratio * crop.width) / crop.height
  const window = {
    width: `${Math.min(1, shownRatio / PLACE_RATIO) * 100}%`,
    height: `${Math.min(1, PLACE_RATIO / shownRatio) * 100}%`,
  }
  const image = {
    width: `${100 / crop.width}%`,
    height: `${100 / crop.height}%`,
    left: `${(-100 * crop.left) / crop.width}%`,
    top: `${(-100 * crop.top) / crop.height}%`,
  }
  return (
    <div className={styles.shown}>
      <div className={styles.window} style={window}>
        <img
          src={photoUrl(photo.sha256, 'screen')}
          alt={[photo.caption, marksWords(photo.marks)].filter(Boolean).join(', ')}
          loading="lazy"
          decoding="async"
          style={image}
          onLoad={({ currentTarget: { naturalWidth, naturalHeight } }) =>
            setRatio(naturalWidth / Math.max(1, naturalHeight))
          }
        />
        {photo.marks.length > 0 && (
          <MarksOverlay
            marks={photo.marks}
            picture={{ width: shownRatio * UNITS, height: UNITS, line: MARK_LINE.small }}
          />
        )}
      </div>
    </div>
  )
}
