import { z } from 'zod'
import {
  reportSettingsSchema,
  weeklyReportsSchema,
  type ReportSettings,
} from '../../domain/facts/reports-facts.ts'
import { LONG_WEEKDAYS } from '../../domain/text/words.ts'
import { tellsWeekBefore } from '../../domain/report/weekly-due.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { CheckField, ChoiceField, SelectField, TimeField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { datesChoices, languageChoices } from './report-words.ts'
import { readReportsAgain } from './report-trouble.ts'

const days = LONG_WEEKDAYS.map((words, index) => ({ value: String(index + 1), words: `Each ${words}` }))

const schema = z.object({
  /** Null prepares nothing by itself. */
  weekday: z.string().nullable(),
  time: weeklyReportsSchema.shape.time,
  dates: reportSettingsSchema.shape.dates,
  names: reportSettingsSchema.shape.names,
  language: reportSettingsSchema.shape.language,
})

/** When a workshop writes that has not said it yet: on Friday afternoon, common practice, no source. */
const USUAL = { weekday: 5, time: '16:00' }

/** When the reports of all cars are prepared by themselves, and what each starts with. */
export function WeeklyDialog({
  settings,
  onClose,
}: {
  readonly settings: ReportSettings
  readonly onClose: () => void
}) {
  const command = useCommand()
  const form = useZodForm(schema, {
    ...settings,
    weekday: String((settings.weekly ?? USUAL).weekday),
    time: (settings.weekly ?? USUAL).time,
  })
  const { control } = form
  const weekday = form.watch('weekday')
  return (
    <Dialog title="Each week by itself" isOpen onClose={onClose}>
      <Form
        form={form}
        submit="Keep it so"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async ({ weekday, time, dates, names, language }) => {
          const weekly = weekday === null ? null : { weekday: Number(weekday), time }
          const payload = { weekly, dates, names, language }
          if (!isSettled(await command.send({ kind: 'setReports', carId: null, payload }))) return
          await readReportsAgain()
          onClose()
        }}
      >
        <p className="quiet">
          At that hour every report is built and printed once, to see that it can go out. You read and issue
          it. If this computer is off then, it catches up when it starts.
        </p>
        <div className="field-row">
          <SelectField
            control={control}
            name="weekday"
            label="Prepare the reports"
            none="Only by hand"
            choices={days}
            hint={weekHint(weekday)}
          />
          <TimeField control={control} name="time" label="At" isDisabled={weekday === null} />
        </div>
        <ChoiceField
          control={control}
          name="dates"
          label="When we expect to be done is said as"
          choices={datesChoices}
        />
        <CheckField control={control} name="names" label="Name the technicians" />
        <ChoiceField
          control={control}
          name="language"
          label="Language of the reports"
          choices={languageChoices}
          hint="Dates, names and language can be chosen otherwise in each report."
        />
      </Form>
    </Dialog>
  )
}

const weekHint = (weekday: string | null): string =>
  weekday === null
    ? 'Nothing is prepared until you do it.'
    : tellsWeekBefore({ weekday: Number(weekday) })
      ? 'They tell of the week before.'
      : 'They tell of the week that is going on.'
