import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { AttachmentId } from '../../domain/ids.ts'
import { MOST_PHOTOS } from '../../domain/report/week-photos.ts'
import { isoWeekDates, parseIsoWeek } from '../../domain/time/iso-week.ts'
import type { PhotoView } from '../../domain/views/shared-views.ts'
import { api, photoUrl } from '../client.ts'
import { Button } from '../parts/form/button.tsx'
import { Dialog } from '../parts/form/dialog.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { MarkedPhoto } from '../parts/photos/marked-photo.tsx'
import { EmptyState } from '../parts/form/notice.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import styles from './owner-reports.module.css'
import type { ReportLine } from './report-shapes.ts'

interface Props {
  readonly line: ReportLine
  readonly week: string
  /** Those that the letter shows now. */
  readonly shown: readonly AttachmentId[]
  readonly isOwn: boolean
  /** Null gives the choice back to the report. */
  readonly onChoose: (chosen: readonly AttachmentId[] | null) => void
  readonly onClose: () => void
}

/** Which photos go into the letter: those of the week first, older ones to set beside them. */
export function PhotoChoice(props: Props) {
  const car = useQuery(api.car.queryOptions({ carId: props.line.carId }))
  return (
    <Dialog title={`Photos for ${props.line.carName}`} isOpen onClose={props.onClose} size="wide">
      <Loaded query={car}>{({ photos }) => <Choice {...props} photos={photos} />}</Loaded>
    </Dialog>
  )
}

function Choice({
  week,
  shown,
  isOwn,
  onChoose,
  onClose,
  photos,
}: Props & { readonly photos: readonly PhotoView[] }) {
  const [chosen, setChosen] = useState<ReadonlySet<AttachmentId>>(new Set(shown))
  const { ofWeek, older } = useByWeek(photos, week)
  const toggle = (id: AttachmentId) => setChosen((before) => before.symmetricDifference(new Set([id])))
  const settle = (ids: readonly AttachmentId[] | null) => {
    onChoose(ids)
    onClose()
  }
  const isFull = chosen.size >= MOST_PHOTOS
  return (
    <div className="stack">
      {photos.length === 0 && (
        <EmptyState title="No photos yet">
          Photos taken at the gates of this car can be chosen here.
        </EmptyState>
      )}
      <Pictures title="This week" photos={ofWeek} chosen={chosen} isFull={isFull} onToggle={toggle} />
      <Pictures title="Before" photos={older} chosen={chosen} isFull={isFull} onToggle={toggle} />
      <div className={`spread ${styles.settle}`}>
        <span role="status">
          {chosen.size} of at most {MOST_PHOTOS} chosen
        </span>
        <div className="button-row">
          {isOwn && <Button onClick={() => settle(null)}>Let the report choose</Button>}
          <Button kind="main" onClick={() => settle([...chosen])}>
            Use these
          </Button>
        </div>
      </div>
    </div>
  )
}

function Pictures({
  title,
  photos,
  chosen,
  isFull,
  onToggle,
}: {
  readonly title: string
  readonly photos: readonly PhotoView[]
  readonly chosen: ReadonlySet<AttachmentId>
  readonly isFull: boolean
  readonly onToggle: (id: AttachmentId) => void
}) {
  const when = useWhen()
  if (photos.length === 0) return null
  return (
    <fieldset className="stack-tight">
      <legend className="label">{title}</legend>
      <div className="photo-thumbs photo-choices">
        {photos.map(({ attachmentId, sha256, caption, marks, taken, serves }) => (
          <label key={attachmentId} className={styles.pick}>
            <input
              type="checkbox"
              checked={chosen.has(attachmentId)}
              disabled={isFull && !chosen.has(attachmentId)}
              onChange={() => onToggle(attachmentId)}
            />
            <MarkedPhoto
              marks={marks}
              src={photoUrl(sha256, 'thumb')}
              alt=""
              loading="lazy"
              decoding="async"
              width={400}
              height={300}
            />
            <span>
              {caption || [serves[0]?.repairName, serves[0]?.gate].filter(Boolean).join(', ') || 'photo'},{' '}
              <span className="quiet">{when.day(taken)}</span>
            </span>
          </label>
        ))}
      </div>
    </fieldset>
  )
}

/** Newest first; nothing that was taken after the week. */
function useByWeek(photos: readonly PhotoView[], text: string) {
  const when = useWhen()
  const week = parseIsoWeek(text)
  const dates = week.ok ? isoWeekDates(week.value) : []
  const first = dates[0] ?? ''
  const last = dates[6] ?? ''
  const known = photos.filter(({ taken }) => when.dateOf(taken) <= last).toSorted((a, b) => b.taken - a.taken)
  return {
    ofWeek: known.filter(({ taken }) => when.dateOf(taken) >= first),
    older: known.filter(({ taken }) => when.dateOf(taken) < first),
  }
}
