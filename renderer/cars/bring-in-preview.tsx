import type { BringInPreview } from '../../domain/bring-in/bring-in-preview.ts'
import { dayWords, joinWords, plural } from '../../domain/text/words.ts'
import { Notice, RefusalNote } from '../parts/form/notice.tsx'
import styles from './bring-in-dialog.module.css'

/** A file that the host keeps until the car is in or the dialog is closed. */
export interface CameFile {
  readonly fileId: string
  readonly preview: BringInPreview
}

/** What a car's file holds, what was kept back, and why it cannot come in. */
export function BringInPreviewList({ preview }: { readonly preview: BringInPreview }) {
  const { refusal, needsNumber, withheld, leftOut } = preview
  return (
    <>
      {(refusal === null || needsNumber) && (
        <Notice kind="done">
          <p>
            Verified: every file is as it was sent, and the chain of {plural('line', preview.lines)} is whole.
          </p>
        </Notice>
      )}
      {refusal !== null && needsNumber && (
        <Notice kind="held">
          <p className="strong">{refusal.message}</p>
          <p>{refusal.next}</p>
        </Notice>
      )}
      {refusal !== null && !needsNumber && <RefusalNote refusal={refusal} />}
      <dl className={styles.holds}>
        <dt>Car</dt>
        <dd className="strong">
          {preview.name}, shell {preview.shellNumber}
        </dd>
        <dt>From</dt>
        <dd>
          {preview.from}, written on {day(preview.written)}
        </dd>
        <dt>Recorded</dt>
        <dd>
          {day(preview.firstDay)} to {day(preview.lastDay)}
        </dd>
        <dt>Repairs</dt>
        <dd>
          {plural('repair', preview.repairs)}, {preview.finishedRepairs} finished;{' '}
          {plural('gate', preview.gatesPassed)} passed
        </dd>
        <dt>Photos</dt>
        <dd>{plural('photo', preview.photos)}</dd>
        <dt>Kept back there</dt>
        <dd>{withheld.length === 0 ? 'nothing' : withheldWords(preview)}</dd>
        {leftOut.length > 0 && (
          <>
            <dt>Not taken over</dt>
            <dd>
              <ul className={styles.list}>
                {leftOut.map(({ why, lines }) => (
                  <li key={why}>
                    {why}: {plural('line', lines)}
                  </li>
                ))}
              </ul>
            </dd>
          </>
        )}
      </dl>
    </>
  )
}

const day = (date: string): string => dayWords(date, 0)

const KEPT = { contacts: 'the owner’s contacts', prices: 'prices', hours: 'people’s hours' } as const

function withheldWords({ withheld, withheldLines }: BringInPreview): string {
  const what = joinWords(withheld.map((choice) => KEPT[choice]))
  return withheldLines === 0
    ? what
    : `${what}; ${plural('line', withheldLines)} came as digests only or shortened`
}
