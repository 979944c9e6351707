import { useQuery } from '@tanstack/react-query'
import type { ListedCopy } from '../../domain/copies/copy-shapes.ts'
import { copyWords } from '../../domain/copies/copy-words.ts'
import { api } from '../client.ts'
import { WordButton } from '../parts/button.tsx'
import { Loaded } from '../parts/loaded.tsx'
import { RefusalNote } from '../parts/notice.tsx'
import { useWhen } from '../parts/when.tsx'
import styles from './copies.module.css'

/** The copies that lie in the folder, the newest first. @param onVerify null while another is being made or verified */
export function CopiesList({ onVerify }: { readonly onVerify: ((stamp: string) => void) | null }) {
  const query = useQuery(api.copiesThere.queryOptions())
  return (
    <section className="stack-tight">
      <h2>What is there</h2>
      <Loaded query={query}>
        {(answer) => {
          if (!answer.ok) return <RefusalNote refusal={answer.refusal} />
          if (answer.value.length === 0)
            return <p className="quiet">No copy of this workshop lies in the folder.</p>
          return (
            <ul className={styles.list}>
              {answer.value.map((copy) => (
                <Line key={copy.stamp} copy={copy} onVerify={onVerify} />
              ))}
            </ul>
          )
        }}
      </Loaded>
      <p className={`quiet ${styles.prose}`}>
        All copies of today and yesterday stay, then one a day for two weeks, one a week for three months and
        one a month beyond; the last good one always. A file that several need lies there once.
      </p>
    </section>
  )
}

function Line({
  copy,
  onVerify,
}: {
  readonly copy: ListedCopy
  readonly onVerify: ((stamp: string) => void) | null
}) {
  const when = useWhen()
  return (
    <li className={styles.line}>
      <div>
        <p className="strong">{when.dayAndTime(copy.made)}</p>
        <p className="small">{copyWords(copy)}</p>
        {!copy.isWhole && (
          <p className="small">
            Not whole:{' '}
            {copy.content?.lost.join(' ') ?? 'something that it should hold could not be had any more.'}
          </p>
        )}
      </div>
      {onVerify !== null && (
        <WordButton onClick={() => onVerify(copy.stamp)}>
          verify all of it<span className="hidden-word"> of {when.dayAndTime(copy.made)}</span>
        </WordButton>
      )}
    </li>
  )
}
