import type { ReactNode } from 'react'
import { drawMarks, type MarkedPicture } from '../../../domain/photo-marks/draw-marks.ts'
import type { PhotoMarks } from '../../../domain/photo-marks/photo-marks.ts'
import styles from './marks.module.css'

/** Marks over a photo that fills the box around both as `object-fit` says; words beside it say what they are. */
export function MarksOverlay({
  marks,
  picture,
  fit = 'cover',
  children,
}: {
  readonly marks: PhotoMarks
  readonly picture: MarkedPicture
  readonly fit?: 'cover' | 'contain'
  readonly children?: ReactNode
}) {
  const { width, height, shapes } = drawMarks(marks, picture)
  return (
    <svg
      className={styles.marks}
      viewBox={`0 0 ${width} ${height}`}
      preserveAspectRatio={fit === 'cover' ? 'xMidYMid slice' : 'xMidYMid meet'}
      aria-hidden
      data-marks={marks.length}
    >
      {shapes.map(
        (shape, index) =>
          shape.kind === 'path' && (
            <path
              key={index}
              d={shape.d}
              fill="none"
              stroke={`var(--${shape.stroke ?? 'accent'})`}
              strokeWidth={shape.width}
            />
          ),
      )}
      {children}
    </svg>
  )
}
