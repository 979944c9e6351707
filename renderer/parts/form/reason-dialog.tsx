import type { ReactNode } from 'react'
import { z } from 'zod'
import { optionalNoteSchema, reasonSchema } from '../../../domain/facts/shapes.ts'
import type { Outcome } from '../../outbox/outcome.ts'
import { Dialog } from './dialog.tsx'
import { NoteField } from './fields.tsx'
import { Form, useZodForm } from './form.tsx'
import { isSettled } from './settled.ts'
import type { CommandState } from './use-command.ts'

/** An act that needs a few words: why. */
export function ReasonDialog({
  title,
  label,
  submit,
  isOptional = false,
  usual = '',
  command,
  onSubmit,
  onClose,
  children,
}: {
  readonly title: string
  readonly label: string
  readonly submit: string
  readonly isOptional?: boolean
  /** Stands there to be kept or changed. */
  readonly usual?: string
  readonly command: CommandState
  readonly onSubmit: (reason: string) => Promise<Outcome>
  readonly onClose: () => void
  readonly children?: ReactNode
}) {
  const form = useZodForm(isOptional ? optionalSchema : schema, { reason: usual })
  return (
    <Dialog title={title} isOpen onClose={onClose}>
      <Form
        form={form}
        submit={submit}
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async ({ reason }) => {
          if (isSettled(await onSubmit(reason))) onClose()
        }}
      >
        {children}
        <NoteField control={form.control} name="reason" label={label} />
      </Form>
    </Dialog>
  )
}

const schema = z.object({ reason: reasonSchema })
const optionalSchema = z.object({ reason: optionalNoteSchema })
