import { zodResolver } from '@hookform/resolvers/zod'
import type { ReactNode } from 'react'
import {
  useForm,
  type DefaultValues,
  type FieldErrors,
  type FieldValues,
  type UseFormReturn,
} from 'react-hook-form'
import type { z } from 'zod'
import type { Refusal } from '../../../domain/refusal.ts'
import { Button } from './button.tsx'
import { Notice, RefusalNote } from './notice.tsx'

type ObjectSchema = z.ZodType<FieldValues, FieldValues>

/** A form that is checked by a zod schema: when a field is left, then at every change of it. */
export function useZodForm<Schema extends ObjectSchema>(
  schema: Schema,
  defaultValues: DefaultValues<z.input<Schema>>,
): UseFormReturn<z.input<Schema>, unknown, z.output<Schema>> {
  return useForm<z.input<Schema>, unknown, z.output<Schema>>({
    resolver: zodResolver(schema),
    defaultValues,
    mode: 'onTouched',
  })
}

/** A form of inputs that hold their own values. */
export function PlainForm({
  onSubmit,
  children,
}: {
  /** What it comes to is the sender's to follow: it never rejects. */
  readonly onSubmit: () => Promise<void> | void
  readonly children: ReactNode
}) {
  return (
    <form
      className="form"
      noValidate
      onSubmit={(event) => {
        event.preventDefault()
        void onSubmit()
      }}
    >
      {children}
    </form>
  )
}

/** The frame of a form: fields, then what the host refused, then its buttons. */
export function Form<Values extends FieldValues, Output>({
  form,
  onSubmit,
  submit,
  refusal = null,
  onCancel,
  children,
}: {
  readonly form: UseFormReturn<Values, unknown, Output>
  readonly onSubmit: (values: Output) => Promise<unknown> | void
  /** Words of the main button. */
  readonly submit: string
  readonly refusal?: Refusal | null
  readonly onCancel?: () => void
  readonly children: ReactNode
}) {
  const { errors, isSubmitting, submitCount } = form.formState
  const unseen = submitCount > 0 ? errorsWithoutField(errors) : []
  return (
    <form
      className="form"
      noValidate
      onSubmit={(event) => void form.handleSubmit((values) => onSubmit(values))(event)}
    >
      {children}
      {unseen.length > 0 && (
        <Notice kind="refused">
          {unseen.map((words) => (
            <p key={words}>{words}</p>
          ))}
        </Notice>
      )}
      <RefusalNote refusal={refusal} />
      <div className="button-row end">
        {onCancel && <Button onClick={onCancel}>Cancel</Button>}
        <Button kind="main" type="submit" aria-disabled={isSubmitting}>
          {submit}
        </Button>
      </div>
    </form>
  )
}

/** Errors of the form as a whole, or of values that no field on the screen shows. */
function errorsWithoutField(errors: FieldErrors): readonly string[] {
  return Object.entries(errors).flatMap(([name, error]) => {
    if (error === undefined) return []
    const isShown = name !== 'root' && 'ref' in error && error.ref !== undefined
    return isShown || typeof error.message !== 'string' ? [] : [error.message]
  })
}
