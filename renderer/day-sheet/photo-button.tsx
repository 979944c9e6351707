import type { DaySheetLine } from '../../domain/views/view-shapes.ts'
import { Button } from '../parts/form/button.tsx'
import styles from './day-sheet.module.css'
import type { LinePhotos } from './use-line-photos.ts'

/** A photo of a line in one tap; it says what that will show. */
export function PhotoButton({ line, photos }: { readonly line: DaySheetLine; readonly photos: LinePhotos }) {
  return (
    <Button onClick={() => photos.take(line)}>
      Photo
      <span className="hidden-word"> of {line.name}: </span>
      <span className={styles.aim}>{photos.nextOf(line).words}</span>
    </Button>
  )
}
