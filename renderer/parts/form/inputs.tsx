import { useId, useState, type ComponentProps, type ReactNode } from 'react'
import { numberToText, readNumber } from './read-number.ts'

/*
 * Labelled inputs that say their hint or error below themselves, for places that hold their own value. The fields of forms
 * (fields.tsx) are these, bound to a form.
 */

/** What stands around an input. */
export interface Framed {
  readonly label: ReactNode
  readonly hint?: ReactNode
  readonly error?: string | undefined
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
}: Framed & {
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
export function Says({ of, hint, error }: Omit<Framed, 'label'> & { readonly of: string }) {
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
export const saysId = (of: string, hint: ReactNode, error: string | undefined): string | undefined =>
  (error ?? hint) === undefined ? undefined : `${of}-says`

/** One line of text, or a date or time as the browser has it entered. */
export function TextInput({
  label,
  hint,
  error,
  onChange,
  ...input
}: Framed &
  Omit<ComponentProps<'input'>, 'value' | 'onChange'> & {
    readonly value: string
    readonly onChange: (value: string) => void
  }) {
  return (
    <FieldFrame label={label} hint={hint} error={error}>
      {(ids) => (
        <input
          {...ids}
          className="input"
          autoComplete="off"
          {...input}
          onChange={(event) => onChange(event.target.value)}
        />
      )}
    </FieldFrame>
  )
}

/** Several lines; grows with what is written. */
export function NoteInput({
  label,
  hint,
  error,
  onChange,
  ...input
}: Framed &
  Omit<ComponentProps<'textarea'>, 'value' | 'onChange'> & {
    readonly value: string
    readonly onChange: (value: string) => void
  }) {
  return (
    <FieldFrame label={label} hint={hint} error={error}>
      {(ids) => (
        <textarea
          {...ids}
          className="input"
          rows={2}
          {...input}
          onChange={(event) => onChange(event.target.value)}
        />
      )}
    </FieldFrame>
  )
}

/** The bare box of a figure with its unit, without a label; a decimal comma is read as a point. */
export function NumberInput({
  unit,
  decimals = 0,
  value,
  onChange,
  ...input
}: Omit<ComponentProps<'input'>, 'value' | 'onChange'> & {
  readonly unit: string
  /** As many at least, in what it starts with. */
  readonly decimals?: number
  readonly value: number | null
  readonly onChange: (value: number | null) => void
}) {
  // What was typed stays as typed ('4.', '4,50') as long as it means the value.
  const [typed, setTyped] = useState(numberToText(value, decimals))
  const isSame = Object.is(readNumber(typed), value ?? null)
  return (
    <div className="with-unit">
      <input
        {...input}
        className="input"
        type="text"
        inputMode="decimal"
        autoComplete="off"
        value={isSame || Number.isNaN(value) ? typed : numberToText(value, decimals)}
        onChange={(event) => {
          setTyped(event.target.value)
          onChange(readNumber(event.target.value))
        }}
      />
      <span className="unit">{unit}</span>
    </div>
  )
}

/** One of a list. */
export function SelectInput<Value extends string>({
  label,
  hint,
  error,
  choices,
  none,
  value,
  onChange,
  ...input
}: Framed &
  Omit<ComponentProps<'select'>, 'value' | 'onChange'> & {
    readonly choices: readonly Choice<Value>[]
    /** Words for 'none of them'; the value is then null. */
    readonly none?: string | undefined
    readonly value: Value | null
    readonly onChange: (value: Value | null) => void
  }) {
  return (
    <FieldFrame label={label} hint={hint} error={error}>
      {(ids) => (
        <select
          {...ids}
          className="input"
          {...input}
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
export function ChoiceRow<Value extends string>({
  label,
  hint,
  error,
  choices,
  value,
  onChange,
  isDisabled = false,
}: Framed & {
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

/** Yes or no, as a box to tick. */
export function CheckInput({
  label,
  hint,
  error,
  value,
  onChange,
  ...input
}: Framed &
  Omit<ComponentProps<'input'>, 'value' | 'onChange'> & {
    readonly value: boolean
    readonly onChange: (value: boolean) => void
  }) {
  const id = useId()
  return (
    <div className="field">
      <label className="check">
        <input
          {...input}
          type="checkbox"
          aria-describedby={saysId(id, hint, error)}
          checked={value}
          onChange={(event) => onChange(event.target.checked)}
        />
        {label}
      </label>
      <Says of={id} hint={hint} error={error} />
    </div>
  )
}
