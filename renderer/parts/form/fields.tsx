/**
 * Over 300 lines because it is the one list of fields that every form is put together from; each is a few lines.
 *
 * Every field is bound to a form by `control` and `name`, labelled, and says its error below itself.
 */
import { useId, useState, type ReactNode } from 'react'
import { useController, type Control, type FieldPath, type FieldValues } from 'react-hook-form'
import { dayWords } from '../../../domain/text/words.ts'
import { isLocalDate } from '../../../domain/time/local-date.ts'
import { numberToText, readNumber } from './read-number.ts'

/** `Control` with its context and output left open, so that a form with transformed output fits too. */
// oxlint-disable-next-line typescript/no-explicit-any
export type FormControl<Values extends FieldValues> = Control<Values, any, any>

export interface FieldProps<Values extends FieldValues> {
  readonly control: FormControl<Values>
  readonly name: FieldPath<Values>
  readonly label: string
  readonly hint?: ReactNode
  readonly isDisabled?: boolean
}

export interface Choice<Value extends string = string> {
  readonly value: Value
  readonly words: string
  /** Heads a group in the list. */
  readonly group?: string
}

/** Label, control, hint and error, tied together for readers of the screen. */
export function FieldFrame({
  label,
  hint,
  error,
  children,
}: {
  readonly label: string
  readonly hint?: ReactNode
  readonly error?: string | undefined
  readonly children: (ids: {
    readonly id: string
    readonly 'aria-describedby': string | undefined
    readonly 'aria-invalid': boolean
  }) => ReactNode
}) {
  const id = useId()
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      {children({
        id,
        'aria-describedby': saysId(id, hint, error),
        'aria-invalid': error !== undefined,
      })}
      <Says of={id} hint={hint} error={error} />
    </div>
  )
}

/** Below a field or a group of them: its hint, or in its place what is wrong, which is read out at once. */
function Says({
  of,
  hint,
  error,
}: {
  readonly of: string
  readonly hint: ReactNode
  readonly error: string | undefined
}) {
  const id = saysId(of, hint, error)
  if (id === undefined) return null
  if (error === undefined)
    return (
      <div id={id} className="hint">
        {hint}
      </div>
    )
  return (
    <div id={id} className="error" role="alert">
      {error}
    </div>
  )
}

/** The id of what stands below, to describe the field by; undefined when nothing does. */
const saysId = (of: string, hint: ReactNode, error: string | undefined): string | undefined =>
  (error ?? hint) === undefined ? undefined : `${of}-says`

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
  const { field, fieldState } = useController(props)
  return (
    <FieldFrame label={props.label} hint={props.hint} error={fieldState.error?.message}>
      {(ids) => (
        <input
          {...ids}
          className="input"
          type={type}
          autoComplete={autoComplete}
          // oxlint-disable-next-line jsx-a11y/no-autofocus -- the first field of a dialog the person has just opened
          autoFocus={isFirst}
          disabled={props.isDisabled}
          {...field}
          value={field.value ?? ''}
        />
      )}
    </FieldFrame>
  )
}

/** Several lines; grows with what is written. */
export function NoteField<Values extends FieldValues>(props: FieldProps<Values>) {
  const { field, fieldState } = useController(props)
  return (
    <FieldFrame label={props.label} hint={props.hint} error={fieldState.error?.message}>
      {(ids) => (
        <textarea
          {...ids}
          className="input"
          rows={2}
          disabled={props.isDisabled}
          {...field}
          value={field.value ?? ''}
        />
      )}
    </FieldFrame>
  )
}

/** A figure with its unit; a decimal comma is read as a point. The value is a number, or null when empty. */
export function NumberField<Values extends FieldValues>({
  unit,
  decimals = 0,
  ...props
}: FieldProps<Values> & {
  readonly unit: string
  /** As many at least, in what the field starts with. */
  readonly decimals?: number
}) {
  const { field, fieldState } = useController(props)
  return (
    <FieldFrame
      label={props.label}
      hint={props.hint}
      error={fieldState.error && figureError(field.value, fieldState.error.message)}
    >
      {(ids) => (
        <NumberInput
          {...ids}
          unit={unit}
          decimals={decimals}
          value={field.value}
          onChange={field.onChange}
          onBlur={field.onBlur}
          inputRef={field.ref}
          isDisabled={props.isDisabled ?? false}
        />
      )}
    </FieldFrame>
  )
}

/** The bare box of a figure, for places that hold their own value. */
export function NumberInput({
  unit,
  decimals = 0,
  value,
  onChange,
  onBlur,
  inputRef,
  isDisabled = false,
  ...ids
}: {
  readonly unit: string
  readonly decimals?: number
  readonly value: number | null
  readonly onChange: (value: number | null) => void
  readonly onBlur?: () => void
  readonly inputRef?: (element: HTMLInputElement | null) => void
  readonly isDisabled?: boolean
  readonly id?: string
  readonly 'aria-label'?: string
  readonly 'aria-describedby'?: string | undefined
  readonly 'aria-invalid'?: boolean
}) {
  // What was typed stays as typed ('4.', '4,50') as long as it means the value.
  const [typed, setTyped] = useState(numberToText(value, decimals))
  const isSame = Object.is(readNumber(typed), value ?? null)
  return (
    <div className="with-unit">
      <input
        {...ids}
        ref={inputRef}
        className="input"
        type="text"
        inputMode="decimal"
        autoComplete="off"
        disabled={isDisabled}
        value={isSame || Number.isNaN(value) ? typed : numberToText(value, decimals)}
        onChange={(event) => {
          setTyped(event.target.value)
          onChange(readNumber(event.target.value))
        }}
        onBlur={onBlur}
      />
      <span className="unit">{unit}</span>
    </div>
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
  const { field, fieldState } = useController(props)
  return (
    <FieldFrame
      label={props.label}
      hint={props.hint}
      error={fieldState.error && choiceError(field.value, fieldState.error.message)}
    >
      {(ids) => (
        <select
          {...ids}
          className="input"
          disabled={props.isDisabled}
          {...field}
          value={field.value ?? ''}
          onChange={(event) => {
            field.onChange(event.target.value === '' ? null : event.target.value)
            onChosen?.(event.target.value)
          }}
        >
          {none !== undefined && <option value="">{none}</option>}
          <Options choices={choices} />
        </select>
      )}
    </FieldFrame>
  )
}

/** The bare list, for places that hold their own value. */
export function SelectInput<Value extends string>({
  label,
  choices,
  value,
  onChange,
  none,
  hint,
  error,
}: {
  readonly label: string
  readonly choices: readonly Choice<Value>[]
  readonly value: Value | null
  readonly onChange: (value: Value | null) => void
  readonly none?: string
  readonly hint?: ReactNode
  readonly error?: string | undefined
}) {
  return (
    <FieldFrame label={label} hint={hint} error={error}>
      {(ids) => (
        <select
          {...ids}
          className="input"
          value={value ?? ''}
          onChange={(event) => onChange(event.target.value === '' ? null : (event.target.value as Value))}
        >
          {none !== undefined && <option value="">{none}</option>}
          <Options choices={choices} />
        </select>
      )}
    </FieldFrame>
  )
}

function Options({ choices }: { readonly choices: readonly Choice[] }) {
  const groups = Map.groupBy(choices, (choice) => choice.group ?? '')
  return [...groups].map(([group, members]) => {
    const options = members.map(({ value, words }) => (
      <option key={value} value={value}>
        {words}
      </option>
    ))
    return group === '' ? (
      options
    ) : (
      <optgroup key={group} label={group}>
        {options}
      </optgroup>
    )
  })
}

/** One of a few, all in sight. */
export function ChoiceField<Values extends FieldValues>({
  choices,
  ...props
}: FieldProps<Values> & { readonly choices: readonly Choice[] }) {
  const { field, fieldState } = useController(props)
  return (
    <ChoiceRow
      label={props.label}
      hint={props.hint}
      error={fieldState.error && choiceError(field.value, fieldState.error.message)}
      choices={choices}
      value={field.value ?? null}
      onChange={field.onChange}
      isDisabled={props.isDisabled ?? false}
    />
  )
}

/** The same without a form. */
export function ChoiceRow<Value extends string>({
  label,
  hint,
  error,
  choices,
  value,
  onChange,
  isDisabled = false,
}: {
  readonly label: string
  readonly hint?: ReactNode
  readonly error?: string | undefined
  readonly choices: readonly Choice<Value>[]
  readonly value: Value | null
  readonly onChange: (value: Value) => void
  readonly isDisabled?: boolean
}) {
  const name = useId()
  return (
    <fieldset className="field" disabled={isDisabled} aria-describedby={saysId(name, hint, error)}>
      <legend>{label}</legend>
      <div className="choices">
        {choices.map((choice) => (
          <label key={choice.value} className="choice">
            <input
              type="radio"
              name={name}
              value={choice.value}
              checked={choice.value === value}
              onChange={() => onChange(choice.value)}
            />
            {choice.words}
          </label>
        ))}
      </div>
      <Says of={name} hint={hint} error={error} />
    </fieldset>
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
  const { field, fieldState } = useController(props)
  const id = useId()
  const error = fieldState.error?.message
  return (
    <div className="field">
      <label className="check">
        <input
          type="checkbox"
          aria-describedby={saysId(id, props.hint, error)}
          checked={field.value === true}
          disabled={props.isDisabled}
          ref={field.ref}
          onBlur={field.onBlur}
          onChange={(event) => field.onChange(event.target.checked)}
        />
        {props.label}
      </label>
      <Says of={id} hint={props.hint} error={error} />
    </div>
  )
}

/** Only to leave the year out of a date of this year; a page that is open over New Year says more, not less. */
const THIS_YEAR = new Date().getFullYear()

/** A local date; below it the date as people say it. The value is 'YYYY-MM-DD', or null when empty. */
export function DateField<Values extends FieldValues>(props: FieldProps<Values>) {
  const { field, fieldState } = useController(props)
  const value: string = field.value ?? ''
  const said = isLocalDate(value) ? dayWords(value, THIS_YEAR) : undefined
  return (
    <FieldFrame
      label={props.label}
      hint={said ?? props.hint ?? 'day, month, year'}
      error={fieldState.error?.message}
    >
      {(ids) => (
        <input
          {...ids}
          className="input"
          type="date"
          max="2100-12-31"
          disabled={props.isDisabled}
          {...field}
          value={value}
          onChange={(event) => field.onChange(event.target.value === '' ? null : event.target.value)}
        />
      )}
    </FieldFrame>
  )
}

/** A time of day, 'HH:MM'. */
export function TimeField<Values extends FieldValues>(props: FieldProps<Values>) {
  const { field, fieldState } = useController(props)
  return (
    <FieldFrame label={props.label} hint={props.hint} error={fieldState.error?.message}>
      {(ids) => (
        <input
          {...ids}
          className="input"
          type="time"
          disabled={props.isDisabled}
          {...field}
          value={field.value ?? ''}
        />
      )}
    </FieldFrame>
  )
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
