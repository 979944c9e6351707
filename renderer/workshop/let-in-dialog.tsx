import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { useState } from 'react'
import { plural } from '../../domain/text/words.ts'
import { api, client } from '../client.ts'
import { Button, WordButton } from '../parts/form/button.tsx'
import { Dialog } from '../parts/form/dialog.tsx'
import { Notice, RefusalNote } from '../parts/form/notice.tsx'
import { qrPath } from './qr-path.ts'
import { useNow } from '../parts/frame/use-now.ts'
import styles from './devices.module.css'
import { useAsManager } from './use-as-manager.ts'

export type ShownCode = Extract<Awaited<ReturnType<typeof client.pairingCode.mutate>>, { ok: true }>

const SOON_MS = 1_000

/** Shows a pairing code for as long as it counts, to be scanned or typed, and says what became of it. */
export function LetInDialog({ first, onClose }: { readonly first: ShownCode; readonly onClose: () => void }) {
  const { ask, refusal } = useAsManager()
  const [shown, setShown] = useState(first)
  const { data } = useQuery({ ...api.devices.queryOptions(), refetchInterval: SOON_MS })
  const showAnother = async () => {
    const another = await ask(() => client.pairingCode.mutate())
    if (another !== null) setShown(another)
  }
  // What was read last may still be of the code before this one.
  const code = data?.code?.until === shown.until ? data.code : null
  const state = code?.is ?? 'open'
  return (
    <Dialog title="Let a device in" isOpen onClose={onClose}>
      <div className="stack">
        {state === 'open' && <Code code={shown} />}
        {code?.is === 'used' && (
          <Notice kind="done">
            <p className="strong">{code.by} was let in.</p>
            <p>It is in the list now. The code counts no longer.</p>
          </Notice>
        )}
        {state === 'over' && (
          <Notice kind="held">
            <p className="strong">The code has run out.</p>
            <p>Nobody used it within five minutes.</p>
          </Notice>
        )}
        {state === 'void' && (
          <Notice kind="refused">
            <p className="strong">Five wrong codes were given, so this one counts no longer.</p>
            <p>If nobody here mistyped it, somebody on your network is guessing.</p>
          </Notice>
        )}
        <RefusalNote refusal={refusal} />
        <div className="button-row end">
          {state !== 'open' && <Button onClick={() => void showAnother()}>Show another code</Button>}
          <Button kind={state === 'used' ? 'main' : 'plain'} onClick={onClose}>
            Close
          </Button>
        </div>
      </div>
    </Dialog>
  )
}

function Code({ code: { text, until, links } }: { readonly code: ShownCode }) {
  const [at, setAt] = useState(0)
  const link = links[at]
  return (
    <div className={styles.letIn}>
      {link === undefined ? (
        <Notice kind="held">
          <p className="strong">Only this computer reaches Panelwright now.</p>
          <p>
            <Link to="/workshop" search={{ sheet: 'network' }}>
              Open the workshop network
            </Link>{' '}
            first, so that a tablet or phone finds it.
          </p>
        </Notice>
      ) : (
        <>
          <QrCode text={link} />
          <div className="stack-tight">
            <p>Scan this with the camera of the device.</p>
            <p>
              Or open <span className={styles.address}>{new URL(link).origin}</span> there and type the code.
            </p>
            {links.length > 1 && (
              <WordButton onClick={() => setAt((at + 1) % links.length)}>
                not found? another address ({at + 1} of {links.length})
              </WordButton>
            )}
          </div>
        </>
      )}
      <p className={styles.code} aria-label={`Pairing code ${text.replaceAll(/./g, '$& ')}`}>
        <span>{text.slice(0, 4)}</span>
        <span>{text.slice(4)}</span>
      </p>
      <p>
        <TimeLeft until={until} />. It lets in one device; do not send it to anybody.
      </p>
    </div>
  )
}

function TimeLeft({ until }: { readonly until: number }) {
  const seconds = Math.max(0, Math.floor((until - useNow(SOON_MS)) / 1_000))
  const minutes = Math.floor(seconds / 60)
  return (
    <span className="strong">
      {minutes > 0 ? `${minutes} min ${seconds % 60} s left` : `${plural('second', seconds)} left`}
    </span>
  )
}

function QrCode({ text }: { readonly text: string }) {
  const { size, path } = qrPath(text)
  return (
    <svg
      className={styles.qr}
      viewBox={`0 0 ${size} ${size}`}
      role="img"
      aria-label="QR code of the address with the pairing code"
    >
      <path d={path} />
    </svg>
  )
}
