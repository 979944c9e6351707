import type { ReactNode } from 'react'
import { z } from 'zod'
import { optionalNoteSchema, reasonSchema } from '../../../domain/facts/shapes.ts'
import { Dialog } from './dialog.tsx'
import { NoteField } from './fields.tsx'
import { Form, useZodForm } from './form.tsx'
import { isSettled } from './settled.ts'
import { useCommand, type AnyAct } from './use-command.ts'

/** One act that needs a few words: why. */
export function ReasonDialog({
  title,
  label,
  submit,
  isOptional = false,
  usual = '',
  act,
  onClose,
  children,
}: {
  readonly title: string
  readonly label: string
  readonly submit: string
  readonly isOptional?: boolean
  /** Stands there to be kept or changed. */
  readonly usual?: string
  /** What is sent with these words; null while something else is still to be chosen. */
  readonly act: (words: string) => AnyAct | null
  readonly onClose: () => void
  readonly children?: ReactNode
}) {
  const command = useCommand()
  const form = useZodForm(isOptional ? optionalSchema : schema, { reason: usual })
  return (
    <Dialog title={title} isOpen onClose={onClose}>
      <Form
        form={form}
        submit={submit}
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async ({ reason }) => {
          const chosen = act(reason)
          if (chosen !== null && isSettled(await command.send(chosen))) onClose()
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
