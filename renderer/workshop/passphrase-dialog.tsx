import { z } from 'zod'
import { Dialog } from '../parts/form/dialog.tsx'
import { TextField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { useWhen } from '../parts/frame/when.tsx'

const schema = z.strictObject({ passphrase: z.string().min(1, 'Type the passphrase.').max(200) })

/** Asks for the passphrase of a copy that the key on this computer does not open; it is kept nowhere. */
export function PassphraseDialog({
  made,
  onGive,
  onClose,
}: {
  /** When the copy was made, epoch milliseconds. */
  readonly made: number
  readonly onGive: (passphrase: string) => void
  readonly onClose: () => void
}) {
  const when = useWhen()
  const form = useZodForm(schema, { passphrase: '' })
  return (
    <Dialog title={`Verify the copy of ${when.dayAndTime(made)}`} isOpen onClose={onClose} size="narrow">
      <Form
        form={form}
        submit="Verify it"
        refusal={null}
        onCancel={onClose}
        onSubmit={({ passphrase }) => onGive(passphrase)}
      >
        <TextField
          control={form.control}
          name="passphrase"
          label="Passphrase of that copy"
          type="password"
          hint="the one that was set when it was made"
          isFirst
        />
      </Form>
    </Dialog>
  )
}
