/*
 * Every field is bound to a form by `control` and `name`, labelled, and says its error below itself.
 */
import { useId } from 'react'
import { useController, type Control, type FieldPath, type FieldValues } from 'react-hook-form'
import { dayWords } from '../../../domain/text/words.ts'
import { isLocalDate } from '../../../domain/time/local-date.ts'
import {
  CheckInput,
  ChoiceRow,
  FieldFrame,
  NoteInput,
  NumberInput,
  Says,
  saysId,
  SelectInput,
  TextInput,
  type Choice,
  type Framed,
} from './inputs.tsx'

/** `Control` with its context and output left open, so that a form with transformed output fits too. */
// oxlint-disable-next-line typescript/no-explicit-any
export type FormControl<Values extends FieldValues> = Control<Values, any, any>

export interface FieldProps<Values extends FieldValues> extends Omit<Framed, 'label' | 'error'> {
  readonly control: FormControl<Values>
  readonly name: FieldPath<Values>
  readonly label: string
  readonly isDisabled?: boolean
}

/** What a field's input is given, whatever its value. */
function useField<Values extends FieldValues>(props: FieldProps<Values>) {
  const { field, fieldState } = useController(props)
  const { ref, name, onBlur } = field
  const { label, hint, isDisabled: disabled } = props
  return {
    field,
    error: fieldState.error,
    bound: { label, hint, error: fieldState.error?.message, ref, name, onBlur, disabled },
  }
}

export function TextField<Values extends FieldValues>({
  type = 'text',
  autoComplete = 'off',
  isFirst = false,
  ...props
}: FieldProps<Values> & {
  readonly type?: 'text' | 'email' | 'tel' | 'password'
  readonly autoComplete?: string
  /** Takes the focus when its form opens. */
  readonly isFirst?: boolean
}) {
  const { field, bound } = useField(props)
  return (
    <TextInput
      {...bound}
      type={type}
      autoComplete={autoComplete}
      // oxlint-disable-next-line jsx-a11y/no-autofocus -- the first field of a dialog the person has just opened
      autoFocus={isFirst}
      value={field.value ?? ''}
      onChange={field.onChange}
    />
  )
}

/** Several lines; grows with what is written. */
export function NoteField<Values extends FieldValues>(props: FieldProps<Values>) {
  const { field, bound } = useField(props)
  return <NoteInput {...bound} value={field.value ?? ''} onChange={field.onChange} />
}

/** A figure with its unit. The value is a number, or null when empty. */
export function NumberField<Values extends FieldValues>({
  unit,
  decimals = 0,
  ...props
}: FieldProps<Values> & {
  readonly unit: string
  /** As many at least, in what the field starts with. */
  readonly decimals?: number
}) {
  const { field, error } = useField(props)
  return (
    <FieldFrame
      label={props.label}
      hint={props.hint}
      error={error && figureError(field.value, error.message)}
    >
      {(ids) => (
        <NumberInput
          {...ids}
          unit={unit}
          decimals={decimals}
          value={field.value}
          onChange={field.onChange}
          onBlur={field.onBlur}
          ref={field.ref}
          disabled={props.isDisabled}
        />
      )}
    </FieldFrame>
  )
}

/** One of a list. */
export function SelectField<Values extends FieldValues>({
  choices,
  none,
  onChosen,
  ...props
}: FieldProps<Values> & {
  readonly choices: readonly Choice[]
  /** Words for 'none of them'; the value is then null. */
  readonly none?: string
  /** After the value is set, for fields that follow from it. */
  readonly onChosen?: (value: string) => void
}) {
  const { field, error, bound } = useField(props)
  return (
    <SelectInput
      {...bound}
      error={error && choiceError(field.value, error.message)}
      choices={choices}
      none={none}
      value={field.value ?? null}
      onChange={(value: string | null) => {
        field.onChange(value)
        onChosen?.(value ?? '')
      }}
    />
  )
}

/** One of a few, all in sight. */
export function ChoiceField<Values extends FieldValues>({
  choices,
  ...props
}: FieldProps<Values> & { readonly choices: readonly Choice[] }) {
  const { field, error } = useField(props)
  return (
    <ChoiceRow
      label={props.label}
      hint={props.hint}
      error={error && choiceError(field.value, error.message)}
      choices={choices}
      value={field.value ?? null}
      onChange={field.onChange}
      isDisabled={props.isDisabled ?? false}
    />
  )
}

/** Any of a few or many; the value is the array of the ticked values. */
export function ManyField<Values extends FieldValues>({
  choices,
  none = 'Nothing to choose from yet.',
  ...props
}: FieldProps<Values> & { readonly choices: readonly Choice[]; readonly none?: string }) {
  const { field, fieldState } = useController(props)
  const chosen: readonly string[] = field.value ?? []
  const toggle = (value: string, isOn: boolean) =>
    field.onChange(isOn ? [...chosen, value] : chosen.filter((each) => each !== value))
  const id = useId()
  const error = fieldState.error?.message
  return (
    <fieldset className="field" disabled={props.isDisabled} aria-describedby={saysId(id, props.hint, error)}>
      <legend>{props.label}</legend>
      {choices.length === 0 && <div className="hint">{none}</div>}
      <div className="choices">
        {choices.map((choice) => (
          <label key={choice.value} className="choice">
            <input
              type="checkbox"
              checked={chosen.includes(choice.value)}
              onChange={(event) => toggle(choice.value, event.target.checked)}
            />
            {choice.words}
          </label>
        ))}
      </div>
      <Says of={id} hint={props.hint} error={error} />
    </fieldset>
  )
}

export function CheckField<Values extends FieldValues>(props: FieldProps<Values>) {
  const { field, bound } = useField(props)
  return <CheckInput {...bound} value={field.value === true} onChange={field.onChange} />
}

/** Only to leave the year out of a date of this year; a page that is open over New Year says more, not less. */
const THIS_YEAR = new Date().getFullYear()

/** A local date; below it the date as people say it. The value is 'YYYY-MM-DD', or null when empty. */
export function DateField<Values extends FieldValues>(props: FieldProps<Values>) {
  const { field, bound } = useField(props)
  const value: string = field.value ?? ''
  const said = isLocalDate(value) ? dayWords(value, THIS_YEAR) : undefined
  return (
    <TextInput
      {...bound}
      hint={said ?? props.hint ?? 'day, month, year'}
      type="date"
      max="2100-12-31"
      value={value}
      onChange={(date) => field.onChange(date === '' ? null : date)}
    />
  )
}

/** A time of day, 'HH:MM'. */
export function TimeField<Values extends FieldValues>(props: FieldProps<Values>) {
  const { field, bound } = useField(props)
  return <TextInput {...bound} type="time" value={field.value ?? ''} onChange={field.onChange} />
}

/** Shortest, most likely and longest person-hours; the value is a `ThreePoint`. */
export function HoursThreePointField<Values extends FieldValues>(props: FieldProps<Values>) {
  const { field, fieldState } = useController(props)
  const points = (field.value ?? {}) as Partial<Record<Point, number | null>>
  const errors = fieldState.error as
    | ({ message?: string } & Partial<Record<Point, { message?: string }>>)
    | undefined
  const error = errors?.message ?? POINTS.map((point) => errors?.[point.key]?.message).find((words) => words)
  const id = useId()
  return (
    <fieldset className="field" disabled={props.isDisabled} aria-describedby={saysId(id, props.hint, error)}>
      <legend>{props.label}</legend>
      <div className="three-points">
        {POINTS.map(({ key, words }) => (
          <div key={key}>
            <NumberInput
              unit="h"
              aria-label={`${props.label}, ${words}`}
              aria-invalid={error !== undefined}
              value={points[key] ?? null}
              onChange={(value) => field.onChange({ ...points, [key]: value })}
              onBlur={field.onBlur}
            />
            <div className="small quiet" aria-hidden="true">
              {words}
            </div>
          </div>
        ))}
      </div>
      <Says of={id} hint={props.hint} error={error} />
    </fieldset>
  )
}

type Point = 'shortest' | 'likely' | 'longest'
const POINTS: readonly { readonly key: Point; readonly words: string }[] = [
  { key: 'shortest', words: 'shortest' },
  { key: 'likely', words: 'most likely' },
  { key: 'longest', words: 'longest' },
]

function choiceError(value: unknown, message: string | undefined): string {
  return value === null || value === undefined || value === ''
    ? 'Choose one.'
    : (message ?? 'Choose another one.')
}

function figureError(value: unknown, message: string | undefined): string {
  if (value === null || value === undefined) return 'Give a figure.'
  return Number.isNaN(value) ? 'Give a figure, like 4.5.' : (message ?? 'This figure is not possible.')
}
