import { z } from 'zod'
import { dayRange } from '../../domain/report/hours-table.ts'
import { DateField } from '../parts/form/fields.tsx'
import { useZodForm } from '../parts/form/form.tsx'
import { ManagersOnly } from '../parts/frame/managers-only.tsx'
import { Notice } from '../parts/form/notice.tsx'
import styles from './take-out.module.css'
import sheets from './workshop.module.css'
import { WholeWorkshop } from './whole-workshop.tsx'
import type { Workshop } from './workshop-shapes.ts'

/** What the workshop has recorded, as files that any spreadsheet opens; for a signed-in manager. */
export function TakeOutSheet({ view: { settings } }: { readonly view: Workshop }) {
  return (
    <ManagersOnly
      title="Only managers take records out"
      why="Hours, gates and variations stand here as files for a spreadsheet once you have given your code on this device."
    >
      <div className={`stack ${sheets.sheet}`}>
        <Hours isNamed={settings.figuresByPerson} />
        <section className="stack-tight">
          <h2>Gates</h2>
          <p>
            Every gate of every repair: how it stands, when and by whom it was done, and its hours authorised,
            earned and spent over all visits.
          </p>
          <Files of="gates" />
        </section>
        <section className="stack-tight">
          <h2>Variations</h2>
          <p>
            Every variation: what was asked of its payer, what they answered, and the hours and money that
            they accepted, without tax.
          </p>
          <Files of="variations" />
        </section>
        <WholeWorkshop />
      </div>
    </ManagersOnly>
  )
}

const days = z.strictObject({ from: z.iso.date().nullable(), to: z.iso.date().nullable() })

function Hours({ isNamed }: { readonly isNamed: boolean }) {
  const { control, watch } = useZodForm(days, { from: null, to: null })
  const { from, to } = watch()
  const range = dayRange(from, to)
  const asked = Object.entries({ from, to }).flatMap(([name, date]) =>
    date === null ? [] : [[name, date] as [string, string]],
  )
  return (
    <section className="stack-tight">
      <h2>Hours</h2>
      <p>
        Every time entry: day, car, visit, what was done, hours, cause of rework and note. Work on several
        gates has a line for each of them.
      </p>
      <p className="quiet">
        {isNamed
          ? 'The file names the people, as figures by person are on.'
          : 'The file names nobody, as figures by person are off; they are turned on under Limits.'}
      </p>
      <div className={`field-row ${styles.days}`}>
        <DateField control={control} name="from" label="First day" hint="empty: from the beginning" />
        <DateField control={control} name="to" label="Last day" hint="empty: up to now" />
      </div>
      {range.ok ? (
        <Files of="hours" query={new URLSearchParams(asked).toString()} />
      ) : (
        <Notice kind="refused">
          <p className="strong">{range.refusal.message}</p>
          <p>{range.refusal.next}</p>
        </Notice>
      )}
    </section>
  )
}

function Files({
  of,
  query = '',
}: {
  readonly of: 'hours' | 'gates' | 'variations'
  readonly query?: string
}) {
  const asked = query === '' ? '' : `?${query}`
  return (
    <div className="button-row">
      <a className="button" href={`/take-out/${of}.xlsx${asked}`} download>
        Save {of} as a workbook (XLSX)
      </a>
      <a className="button" href={`/take-out/${of}.csv${asked}`} download>
        Save {of} as CSV
      </a>
    </div>
  )
}
