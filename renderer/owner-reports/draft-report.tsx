import { useId, useState } from 'react'
import { reportPhotos, type OwnerWeek } from '../../domain/report/owner-week-shapes.ts'
import { plural } from '../../domain/text/words.ts'
import { useActor } from '../parts/actor.tsx'
import { Button } from '../parts/button.tsx'
import { Loaded } from '../parts/loaded.tsx'
import { EmptyState, RefusalNote } from '../parts/notice.tsx'
import { IssueDialog } from './issue-dialog.tsx'
import { IssuedBefore } from './issued-before.tsx'
import { Letter } from './letter.tsx'
import styles from './owner-reports.module.css'
import { PhotoChoice } from './photo-choice.tsx'
import type { Drafts, ReportLine } from './report-shapes.ts'
import { useLetter } from './use-letter.ts'

interface Props {
  readonly week: string
  readonly line: ReportLine
  readonly drafts: Drafts
  readonly onIssued: () => void
}

/** A letter that has not gone out: the sheet as its owner will see it, and beside it what the manager may add. */
export function DraftReport(props: Props) {
  const { manager, askManager } = useActor()
  const letter = useLetter(props.line.visitId, props.week, props.drafts.of(props.line))
  if (manager === null) {
    return (
      <EmptyState
        title="Letters are written by a manager"
        action={
          <Button kind="main" onClick={() => void askManager()}>
            Manager: sign in
          </Button>
        }
      >
        Sign in with your code to read this week’s letter, add your own words and issue it.
      </EmptyState>
    )
  }
  return (
    <Loaded query={letter}>
      {(answer) =>
        answer.ok ? <Draft {...props} content={answer.content} /> : <RefusalNote refusal={answer.refusal} />
      }
    </Loaded>
  )
}

function Draft({ week, line, drafts, onIssued, content }: Props & { readonly content: OwnerWeek }) {
  const [doing, setDoing] = useState<'issue' | 'photos' | null>(null)
  const draft = drafts.of(line)
  const photos = reportPhotos(content)
  return (
    <div className={styles.columns}>
      <Letter content={content} />
      <aside className={`stack ${styles.side}`}>
        <WordsBox value={draft.words} onChange={(words) => drafts.change(line, { words })} />
        <div className="stack-tight">
          <div className="spread">
            <span className="label">{plural('photo', photos.length)}</span>
            <span className="small quiet">
              {draft.photos === null ? 'chosen by the report' : 'chosen by you'}
            </span>
          </div>
          <Button onClick={() => setDoing('photos')}>Choose the photos</Button>
        </div>
        <div className={styles.act}>
          <a
            className="button plain"
            href={`/report-preview/${line.visitId}/${week}.pdf`}
            target="_blank"
            rel="noreferrer"
          >
            Look at the PDF
          </a>
          <a className="button plain" href={`/report-preview/${line.visitId}/${week}.html`} download>
            Save as one page
          </a>
          <Button kind="main" onClick={() => setDoing('issue')}>
            Issue it
          </Button>
        </div>
        <IssuedBefore reports={[...line.issued, ...(line.before === null ? [] : [line.before])]} />
      </aside>
      {doing === 'photos' && (
        <PhotoChoice
          line={line}
          week={week}
          shown={photos.map(({ attachmentId }) => attachmentId)}
          isOwn={draft.photos !== null}
          onChoose={(chosen) => drafts.change(line, { photos: chosen })}
          onClose={() => setDoing(null)}
        />
      )}
      {doing === 'issue' && (
        <IssueDialog
          week={week}
          line={line}
          content={content}
          choices={draft}
          onIssued={() => {
            drafts.forget(line.visitId)
            onIssued()
          }}
          onClose={() => setDoing(null)}
        />
      )}
    </div>
  )
}

function WordsBox({
  value,
  onChange,
}: {
  readonly value: string
  readonly onChange: (words: string) => void
}) {
  const id = useId()
  return (
    <div className="field">
      <label htmlFor={id}>Your own words</label>
      <textarea
        id={id}
        className="input"
        rows={4}
        maxLength={10_000}
        aria-describedby={`${id}-hint`}
        value={value}
        onChange={(event) => onChange(event.target.value)}
      />
      <div id={`${id}-hint`} className="hint">
        They stand at the head of the letter. An empty line begins a new paragraph.
      </div>
    </div>
  )
}
