import { plural } from '../../domain/text/words.ts'
import type { LeftOut } from './card-files.ts'
import styles from './card.module.css'

/** Files that are no photos or could not be read, by name and reason. */
export function LeftOutList({ files }: { readonly files: readonly LeftOut[] }) {
  if (files.length === 0) return null
  return (
    <details className={styles.folded}>
      <summary>{plural('file', files.length)} left out</summary>
      <ul className="lines">
        {files.map(({ name, why }, index) => (
          <li key={index} className={styles.file}>
            <span className="strong">{name}</span>
            <span>{why}</span>
          </li>
        ))}
      </ul>
    </details>
  )
}
