import { client } from '../client.ts'
import { Button } from '../parts/form/button.tsx'
import { Dialog } from '../parts/form/dialog.tsx'
import { RefusalNote } from '../parts/form/notice.tsx'
import { useAsManager } from './use-as-manager.ts'
import type { DeviceView } from './workshop-shapes.ts'

/** Says what becomes of a device before it is shut out. */
export function ShutOutDialog({
  device,
  onClose,
}: {
  readonly device: DeviceView
  readonly onClose: () => void
}) {
  const { ask, refusal } = useAsManager()
  const shutOut = async () => {
    const done = await ask(() => client.shutOutDevice.mutate({ deviceId: device.id }))
    if (done !== null) onClose()
  }
  return (
    <Dialog title={`Shut out ${device.name}?`} isOpen onClose={onClose} size="narrow">
      <div className="stack">
        <p>
          It shows nothing of the workshop any more, from this moment on, and whoever is signed in on it is
          signed out.
        </p>
        <p className="quiet">
          Photos and entries that it sent stay. What it has not sent yet waits on the device, and goes out if
          it is let in again.
        </p>
        <RefusalNote refusal={refusal} />
        <div className="button-row end">
          <Button onClick={onClose}>Keep it</Button>
          <Button kind="warn" onClick={() => void shutOut()}>
            Shut it out
          </Button>
        </div>
      </div>
    </Dialog>
  )
}
