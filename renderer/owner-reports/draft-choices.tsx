import type { ReportChoices } from '../../domain/report/report-choices.ts'
import { plural } from '../../domain/text/words.ts'
import { Button } from '../parts/form/button.tsx'
import { CheckInput, ChoiceRow, NoteInput } from '../parts/form/inputs.tsx'
import { datesChoices, languageChoices } from './report-words.ts'

/** What the manager may add to a letter, and how it says some things. */
export function DraftChoices({
  choices,
  photoCount,
  isAsIssued,
  onChange,
  onPhotos,
}: {
  readonly choices: ReportChoices
  readonly photoCount: number
  /** Of a correction: the photos are those that were issued. */
  readonly isAsIssued: boolean
  readonly onChange: (change: Partial<ReportChoices>) => void
  readonly onPhotos: () => void
}) {
  return (
    <>
      <NoteInput
        label="Your own words"
        hint="They stand at the head of the letter. An empty line begins a new paragraph."
        rows={4}
        maxLength={10_000}
        value={choices.words}
        onChange={(words) => onChange({ words })}
      />
      <div className="stack-tight">
        <div className="spread">
          <span className="label">{plural('photo', photoCount)}</span>
          <span className="small quiet">
            {isAsIssued ? 'as issued' : choices.photos === null ? 'chosen by the report' : 'chosen by you'}
          </span>
        </div>
        <Button onClick={onPhotos}>Choose the photos</Button>
      </div>
      <div>
        <ChoiceRow
          label="When we expect to be done"
          choices={datesChoices}
          value={choices.dates}
          onChange={(dates) => onChange({ dates })}
        />
        <CheckInput
          label="Name the technicians"
          value={choices.names}
          onChange={(names) => onChange({ names })}
        />
        <ChoiceRow
          label="Language of the report"
          choices={languageChoices}
          value={choices.language}
          onChange={(language) => onChange({ language })}
        />
      </div>
    </>
  )
}
