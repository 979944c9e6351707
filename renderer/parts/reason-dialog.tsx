import type { ReactNode } from 'react'
import { z } from 'zod'
import type { CommandKind } from '../../domain/commands/command-shapes.ts'
import { reasonSchema } from '../../domain/facts/shapes.ts'
import { Dialog } from './dialog.tsx'
import { NoteField } from './fields.tsx'
import { Form, useZodForm } from './form.tsx'
import { type Act, useCommand } from './use-command.ts'

const schema = z.object({ reason: reasonSchema })

/** For every act that needs nothing but a reason: what it does, why, and where it is signed the code after that. */
export function ReasonDialog<K extends CommandKind>({
  title,
  submit,
  act,
  onClose,
  children,
}: {
  readonly title: string
  readonly submit: string
  readonly act: (reason: string) => Act<K>
  readonly onClose: () => void
  readonly children?: ReactNode
}) {
  const command = useCommand()
  const form = useZodForm(schema, { reason: '' })
  return (
    <Dialog title={title} isOpen onClose={onClose}>
      <Form
        form={form}
        submit={submit}
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async ({ reason }) => {
          const outcome = await command.send(act(reason))
          if (outcome.is === 'done' || outcome.is === 'kept') onClose()
        }}
      >
        {children}
        <NoteField control={form.control} name="reason" label="Reason" hint="It stays in the record." />
      </Form>
    </Dialog>
  )
}
