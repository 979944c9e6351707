import { z } from 'zod'
import { USUAL_WARN_AFTER_DAYS } from '../../domain/copies/copy-age.ts'
import { passphraseSchema } from '../../domain/copies/passphrase.ts'
import type { Refusal } from '../../domain/refusal.ts'
import type { client } from '../client.ts'
import { CheckField, ChoiceField, NumberField, TextField, TimeField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { Notice } from '../parts/form/notice.tsx'
import styles from './copies.module.css'
import type { CopiesState } from './workshop-shapes.ts'

type Asked = Parameters<typeof client.setCopies.mutate>[0]

const schema = z
  .object({
    folder: z.string().trim().min(1, 'Give the whole path of a folder.'),
    made: z.enum(['day', 'hours', 'by hand']),
    time: z.string(),
    hours: z.number().nullable(),
    warnAfterDays: z.int().min(1).max(90),
    isSealed: z.boolean(),
    passphrase: z.string(),
    again: z.string(),
    hasOne: z.boolean(),
  })
  .superRefine((value, context) => {
    const say = (path: keyof typeof value, message: string) =>
      context.addIssue({ code: 'custom', path: [path], message })
    if (value.made === 'day' && !/^\d\d:\d\d$/.test(value.time)) say('time', 'Give a time like 18:00.')
    const { hours } = value
    if (value.made === 'hours' && !(hours !== null && Number.isInteger(hours) && hours >= 1 && hours <= 24))
      say('hours', 'Give 1 to 24 hours.')
    if (!value.isSealed || (value.hasOne && value.passphrase === '')) return
    const parsed = passphraseSchema.safeParse(value.passphrase)
    if (!parsed.success) say('passphrase', parsed.error.issues[0]?.message ?? 'Give a passphrase.')
    if (value.passphrase !== value.again) say('again', 'The two differ; type the same one twice.')
  })

/** Where copies go, when they are made and whether they are sealed; in the host's own window. */
export function CopiesForm({
  state: { set },
  refusal,
  onSet,
  onCancel,
}: {
  readonly state: CopiesState
  readonly refusal: Refusal | null
  readonly onSet: (asked: Asked) => Promise<void>
  readonly onCancel: () => void
}) {
  const schedule = set === null ? { every: 'day' as const, time: '18:00' } : set.schedule
  const form = useZodForm(schema, {
    folder: set?.folder ?? '',
    made: schedule?.every ?? 'by hand',
    time: schedule?.every === 'day' ? schedule.time : '18:00',
    hours: schedule?.every === 'hours' ? schedule.hours : 4,
    warnAfterDays: set?.warnAfterDays ?? USUAL_WARN_AFTER_DAYS,
    isSealed: set?.isSealed ?? false,
    passphrase: '',
    again: '',
    hasOne: set?.isSealed ?? false,
  })
  const { control, watch } = form
  const [made, isSealed] = watch(['made', 'isSealed'])
  return (
    <div className={styles.form}>
      <Form
        form={form}
        submit="Set"
        refusal={refusal}
        onCancel={onCancel}
        onSubmit={(values) => onSet(toAsked(values))}
      >
        <TextField
          control={control}
          name="folder"
          label="Folder for copies, on another disk"
          hint="its whole path, like D:\Copies or /media/copies; the folder must be there"
          isFirst
        />
        <ChoiceField
          control={control}
          name="made"
          label="A copy is made"
          choices={[
            { value: 'day', words: 'every day' },
            { value: 'hours', words: 'every few hours' },
            { value: 'by hand', words: 'by hand only' },
          ]}
        />
        {made === 'day' && (
          <TimeField
            control={control}
            name="time"
            label="At"
            hint="best when the day’s work is in and the computer still runs"
          />
        )}
        {made === 'hours' && <NumberField control={control} name="hours" label="Every" unit="hours" />}
        <NumberField
          control={control}
          name="warnAfterDays"
          label="Warn when the last good copy is older than"
          unit="days"
        />
        <CheckField
          control={control}
          name="isSealed"
          label="Seal copies with a passphrase"
          hint="Then nobody can read a lost or stolen disk."
        />
        {isSealed && (
          <>
            <Notice kind="held">
              <p className="strong">
                Whoever forgets the passphrase cannot restore: there is no other way in.
              </p>
              <p>
                Write it down and keep it away from this computer and from the disk. So that copies are made
                by themselves, this computer keeps a key made from it, in its data folder under ‘private’; it
                is in no copy.
              </p>
            </Notice>
            <div className="field-row">
              <TextField
                control={control}
                name="passphrase"
                label="Passphrase"
                type="password"
                hint={
                  set?.isSealed === true
                    ? 'empty: the one that was set before'
                    : 'at least 12 characters; several words are easy to keep in mind'
                }
              />
              <TextField control={control} name="again" label="The passphrase once more" type="password" />
            </div>
          </>
        )}
      </Form>
    </div>
  )
}

function toAsked(values: z.output<typeof schema>): Asked {
  const { folder, made, time, hours, warnAfterDays, isSealed, passphrase } = values
  return {
    folder,
    schedule:
      made === 'day' ? { every: made, time } : made === 'hours' ? { every: made, hours: hours ?? 4 } : null,
    warnAfterDays,
    passphrase: !isSealed ? null : passphrase === '' ? { kind: 'as before' } : passphrase,
  }
}
