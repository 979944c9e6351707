import { z } from 'zod'
import { nameSchema } from '../../domain/text/safe-text.ts'
import { client } from '../client.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { TextField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { useAsManager } from './use-as-manager.ts'
import type { DeviceView } from './workshop-shapes.ts'

const schema = z.object({ name: nameSchema })

export function RenameDeviceDialog({
  device,
  onClose,
}: {
  readonly device: DeviceView
  readonly onClose: () => void
}) {
  const { ask, refusal } = useAsManager()
  const form = useZodForm(schema, { name: device.name })
  return (
    <Dialog title="Rename the device" isOpen onClose={onClose} size="narrow">
      <Form
        form={form}
        submit="Rename it"
        refusal={refusal}
        onCancel={onClose}
        onSubmit={async ({ name }) => {
          const done = await ask(() => client.renameDevice.mutate({ deviceId: device.id, name }))
          if (done !== null) onClose()
        }}
      >
        <TextField control={form.control} name="name" label="Name" isFirst />
      </Form>
    </Dialog>
  )
}
