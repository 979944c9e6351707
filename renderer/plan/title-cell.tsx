import type { ReactNode } from 'react'
import styles from './plan.module.css'

/** One ruled field of the title block. */
export function Cell({
  name,
  wide = false,
  children,
}: {
  readonly name: string
  readonly wide?: boolean
  readonly children: ReactNode
}) {
  return (
    <div className={wide ? styles.wideCell : undefined}>
      <h2 className={styles.cellName}>{name}</h2>
      {children}
    </div>
  )
}
