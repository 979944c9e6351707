import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { copyWords } from '../../domain/copies/copy-words.ts'
import { api } from '../client.ts'
import { WordButton } from '../parts/form/button.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { RefusalNote } from '../parts/form/notice.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import styles from './copies.module.css'
import { PassphraseDialog } from './passphrase-dialog.tsx'
import type { CopyThere } from './workshop-shapes.ts'

type Verify = (stamp: string, passphrase: string | null) => void

/** The copies that lie in the folder, the newest first. */
export function CopiesList({
  mayType,
  onVerify,
}: {
  /** Passphrases are typed in the host's own window alone. */
  readonly mayType: boolean
  /** Null while another is being made or verified. */
  readonly onVerify: Verify | null
}) {
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
                <Line key={copy.stamp} copy={copy} mayType={mayType} onVerify={onVerify} />
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
  mayType,
  onVerify,
}: {
  readonly copy: CopyThere
  readonly mayType: boolean
  readonly onVerify: Verify | null
}) {
  const when = useWhen()
  const [isAsking, setIsAsking] = useState(false)
  const { stamp, made, needsPassphrase } = copy
  return (
    <li className={styles.line}>
      <div>
        <p className="strong">{when.dayAndTime(made)}</p>
        <p className="small">{copyWords(copy)}</p>
        {needsPassphrase && (
          <p className="small">
            Sealed with another passphrase than the one that is set now.
            {!mayType && ' It is verified in Panelwright’s own window, where that is typed.'}
          </p>
        )}
        {!copy.isWhole && (
          <p className="small">
            Not whole:{' '}
            {copy.content?.lost.join(' ') ?? 'something that it should hold could not be had any more.'}
          </p>
        )}
      </div>
      {onVerify !== null && (mayType || !needsPassphrase) && (
        <WordButton onClick={() => (needsPassphrase ? setIsAsking(true) : onVerify(stamp, null))}>
          verify all of it<span className="hidden-word"> of {when.dayAndTime(made)}</span>
        </WordButton>
      )}
      {isAsking && (
        <PassphraseDialog
          made={made}
          onClose={() => setIsAsking(false)}
          onGive={(passphrase) => {
            setIsAsking(false)
            onVerify?.(stamp, passphrase)
          }}
        />
      )}
    </li>
  )
}
