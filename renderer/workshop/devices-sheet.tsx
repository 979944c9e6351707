import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { api, client } from '../client.ts'
import { useActor } from '../parts/sign/actor.tsx'
import { Button, WordButton } from '../parts/form/button.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { ManagersOnly } from '../parts/frame/managers-only.tsx'
import { RefusalNote } from '../parts/form/notice.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import { LetInDialog, type ShownCode } from './let-in-dialog.tsx'
import { RenameDeviceDialog } from './rename-device-dialog.tsx'
import { ShutOutDialog } from './shut-out-dialog.tsx'
import { useAsManager } from './use-as-manager.ts'
import styles from './devices.module.css'
import type { DeviceView } from './workshop-shapes.ts'

/** The host keeps the last use to about a minute. */
const READ_EVERY_MS = 30_000

type Doing =
  | { readonly is: 'let in'; readonly code: ShownCode }
  | { readonly is: 'rename'; readonly device: DeviceView }
  | { readonly is: 'shut out'; readonly device: DeviceView }

/** Every window, tablet and phone that has been let in, for managers. */
export function DevicesSheet() {
  return (
    <ManagersOnly
      title="Devices are shown to managers only"
      why="Here you let tablets and phones in, see when each was last used, and shut one out that was lost."
    >
      <Devices />
    </ManagersOnly>
  )
}

function Devices() {
  const { session } = useActor()
  const query = useQuery({ ...api.devices.queryOptions(), refetchInterval: READ_EVERY_MS })
  const [doing, setDoing] = useState<Doing | null>(null)
  const { ask, refusal } = useAsManager()
  const close = () => setDoing(null)
  const letIn = async () => {
    const code = await ask(() => client.pairingCode.mutate())
    if (code !== null) setDoing({ is: 'let in', code })
  }
  return (
    <section className="stack">
      {session.isHostsOwn ? (
        <div className="stack-tight">
          <div>
            <Button kind="main" onClick={() => void letIn()}>
              Let a device in
            </Button>
          </div>
          <RefusalNote refusal={refusal} />
        </div>
      ) : (
        <p className="quiet">
          Another device is let in from Panelwright’s own window, on the computer that it runs on.
        </p>
      )}
      <p className="quiet">
        A device that was let in belongs to the workshop. What is signed on it still needs each person’s own
        code.
      </p>
      <Loaded query={query}>
        {({ devices }) => (
          <ul className={styles.devices} aria-label="Devices that were let in">
            {devices.map((device) => (
              <DeviceRow
                key={device.id}
                device={device}
                isThisOne={device.id === session.device.id}
                onDo={setDoing}
              />
            ))}
          </ul>
        )}
      </Loaded>
      {doing?.is === 'let in' && <LetInDialog first={doing.code} onClose={close} />}
      {doing?.is === 'rename' && <RenameDeviceDialog device={doing.device} onClose={close} />}
      {doing?.is === 'shut out' && <ShutOutDialog device={doing.device} onClose={close} />}
    </section>
  )
}

function DeviceRow({
  device,
  isThisOne,
  onDo,
}: {
  readonly device: DeviceView
  readonly isThisOne: boolean
  readonly onDo: (doing: Doing) => void
}) {
  const when = useWhen()
  const { name, paired, lastUsed } = device
  return (
    <li className={styles.device}>
      <div>
        <p className={styles.name}>{name}</p>
        {isThisOne && <p className={styles.here}>this device</p>}
      </div>
      <p className={styles.fact}>
        <span className="small quiet">let in</span> {when.short(Date.parse(paired))}
      </p>
      <p className={styles.fact}>
        <span className="small quiet">last used</span>{' '}
        {lastUsed === null ? 'not yet' : when.short(Date.parse(lastUsed))}
      </p>
      <div className={`button-row ${styles.acts}`}>
        <WordButton onClick={() => onDo({ is: 'rename', device })}>
          rename<span className="hidden-word"> {name}</span>
        </WordButton>
        {!isThisOne && (
          <Button kind="warn" onClick={() => onDo({ is: 'shut out', device })}>
            Shut out<span className="hidden-word"> {name}</span>
          </Button>
        )}
      </div>
    </li>
  )
}
