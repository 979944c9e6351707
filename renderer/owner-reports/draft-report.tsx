import { useState } from 'react'
import { reportPhotos, type OwnerWeek, type ReportPhoto } from '../../domain/report/owner-week-shapes.ts'
import type { ReportChoices } from '../../domain/report/report-choices.ts'
import { Button } from '../parts/form/button.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { ManagersOnly } from '../parts/frame/managers-only.tsx'
import { Notice, RefusalNote } from '../parts/form/notice.tsx'
import { CropDialog } from './crop-dialog.tsx'
import { withCrop } from './crops.ts'
import { DraftChoices } from './draft-choices.tsx'
import { IssueDialog } from './issue-dialog.tsx'
import { IssuedBefore } from './issued-before.tsx'
import { Letter } from './letter.tsx'
import styles from './owner-reports.module.css'
import { PhotoChoice } from './photo-choice.tsx'
import { PreparedNote } from './prepared-note.tsx'
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
  const letter = useLetter(props.line.visitId, props.week, props.drafts.of(props.line))
  return (
    <ManagersOnly
      title="Letters are written by a manager"
      why="Sign in with your code to read this week’s letter, add your own words and issue it."
    >
      <Loaded query={letter}>
        {(answer) =>
          answer.ok ? <Draft {...props} content={answer.content} /> : <RefusalNote refusal={answer.refusal} />
        }
      </Loaded>
    </ManagersOnly>
  )
}

function Draft({ week, line, drafts, onIssued, content }: Props & { readonly content: OwnerWeek }) {
  const [doing, setDoing] = useState<'issue' | 'photos' | ReportPhoto | null>(null)
  const choices = drafts.of(line)
  const photos = reportPhotos(content)
  const change = (part: Partial<ReportChoices>) => drafts.change(line, part)
  const close = () => setDoing(null)
  return (
    <div className={styles.columns}>
      <Letter content={content} onCrop={setDoing} />
      <aside className={`stack ${styles.side}`} aria-label="What goes into the report">
        <CorrectionNote line={line} number={content.number} />
        <PreparedNote line={line} week={week} />
        <DraftChoices
          choices={choices}
          photoCount={photos.length}
          isAsIssued={line.issued.length > 0 && choices.photos === line.start.photos}
          onChange={change}
          onPhotos={() => setDoing('photos')}
        />
        <div className={styles.act}>
          <a
            className="button"
            href={`/report-preview/${line.visitId}/${week}.pdf`}
            target="_blank"
            rel="noreferrer"
          >
            Look at the PDF
          </a>
          <Button kind="main" onClick={() => setDoing('issue')}>
            Issue it
          </Button>
        </div>
        <div className={styles.files}>
          <a href={`/report-preview/${line.visitId}/${week}.html`} download>
            Save as one page
          </a>
          <a href={`/report-preview/${line.visitId}/${week}.json`} download>
            Save as data (JSON)
          </a>
        </div>
        <IssuedBefore reports={[...line.issued, ...(line.before === null ? [] : [line.before])]} />
      </aside>
      {doing === 'photos' && (
        <PhotoChoice
          line={line}
          week={week}
          shown={photos.map(({ attachmentId }) => attachmentId)}
          isOwn={choices.photos !== null}
          onChoose={(chosen) => change({ photos: chosen })}
          onClose={close}
        />
      )}
      {doing !== null && typeof doing === 'object' && (
        <CropDialog
          photo={doing}
          onCrop={(crop) => change({ crops: withCrop(choices, doing.attachmentId, crop) })}
          onClose={close}
        />
      )}
      {doing === 'issue' && (
        <IssueDialog
          week={week}
          line={line}
          content={content}
          choices={choices}
          onIssued={() => {
            drafts.forget(line.visitId)
            onIssued()
          }}
          onClose={close}
        />
      )}
    </div>
  )
}

/** A correction is a report of its own: what becomes of the one before is said where it is written. */
function CorrectionNote({ line, number }: { readonly line: ReportLine; readonly number: number }) {
  const [last] = line.issued
  if (last === undefined) return null
  return (
    <Notice kind="caution">
      <p className="strong">This corrects report {last.number}</p>
      <p>
        It goes out as report {number} and says that it takes the place of report {last.number}, which stays
        as it was.
      </p>
    </Notice>
  )
}
