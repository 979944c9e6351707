import { memo } from 'react'
import type { LaidRow } from '../../domain/drawing/plan-layout.ts'
import { dimensionPath, flagPath } from '../../domain/drawing/plan-shapes.ts'
import styles from './drawing.module.css'

/** The names at the left edge: they stay when the drawing is scrolled. */
export const RowNames = memo(function RowNames({ rows }: { readonly rows: readonly LaidRow[] }) {
  return rows.map(({ row, y, height }, index) => {
    const isFirst = index > 0 && rows[index - 1]?.row.kind !== row.kind
    return (
      <div
        key={row.key}
        data-key={row.key}
        className={isFirst ? `${styles.rowName} ${styles.part}` : styles.rowName}
        style={{ top: y, height }}
        aria-hidden="true"
      >
        <RowWords laid={row} />
      </div>
    )
  })
})

function RowWords({ laid: row }: { readonly laid: LaidRow['row'] }) {
  switch (row.kind) {
    case 'bay': {
      const kinds = row.bay.kinds.filter((kind) => !row.bay.name.toLowerCase().includes(kind))
      return (
        <div className={styles.rowWords}>
          <span className={styles.name}>{row.bay.name}</span>{' '}
          <span className="quiet">{kinds.join(', ')}</span>
        </div>
      )
    }
    case 'person':
      return (
        <div className={styles.rowWords}>
          <span className={styles.name}>{row.person.name}</span>{' '}
          <span className="quiet">{row.person.skills.join(', ')}</span>
        </div>
      )
    case 'finish':
      return (
        <div className={styles.finishKey}>
          <svg viewBox="0 0 40 20">
            <path className={styles.flag} d={flagPath(20, 1, 17)} />
          </svg>
          <span>promised</span>
          <svg viewBox="0 0 40 20">
            <path className={styles.dimension} d={dimensionPath(4, 36, 10)} />
          </svg>
          <span>finished, 50 to 80 %</span>
        </div>
      )
  }
}
