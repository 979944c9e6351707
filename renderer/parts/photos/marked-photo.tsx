import { useState, type ImgHTMLAttributes } from 'react'
import { MARK_LINE } from '../../../domain/photo-marks/draw-marks.ts'
import { marksWords } from '../../../domain/photo-marks/marks-words.ts'
import type { PhotoMarks } from '../../../domain/photo-marks/photo-marks.ts'
import { MarksOverlay } from './marks-overlay.tsx'
import styles from './marks.module.css'

/** A photo's picture with what is drawn on it, wherever a screen shows one; where it is alone it is a plain `img`. */
export function MarkedPhoto({
  marks,
  alt,
  line = 'small',
  fit = 'cover',
  onLoad,
  ...image
}: ImgHTMLAttributes<HTMLImageElement> & {
  readonly alt: string
  readonly marks: PhotoMarks
  readonly line?: keyof typeof MARK_LINE
  /** As the picture's own `object-fit`. */
  readonly fit?: 'cover' | 'contain'
}) {
  const [size, setSize] = useState<{ readonly width: number; readonly height: number }>()
  const isMarked = marks.length > 0
  const picture = (
    <img
      {...image}
      alt={isMarked && alt !== '' ? `${alt}, ${marksWords(marks)}` : alt}
      onLoad={(event) => {
        const { naturalWidth, naturalHeight } = event.currentTarget
        setSize({ width: naturalWidth, height: naturalHeight })
        onLoad?.(event)
      }}
    />
  )
  if (!isMarked) return picture
  return (
    <span className={styles.framed}>
      {picture}
      {size !== undefined && (
        <MarksOverlay marks={marks} picture={{ ...size, line: MARK_LINE[line] }} fit={fit} />
      )}
    </span>
  )
}
