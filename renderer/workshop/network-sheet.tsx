import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { useState } from 'react'
import { api, client, queryClient } from '../client.ts'
import { useActor } from '../parts/sign/actor.tsx'
import { Button, WordButton } from '../parts/form/button.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { ManagersOnly } from '../parts/frame/managers-only.tsx'
import { Notice, RefusalNote } from '../parts/form/notice.tsx'
import { OpenPlainDialog } from './open-plain-dialog.tsx'
import { TrustSteps } from './trust-steps.tsx'
import { useAsManager } from './use-as-manager.ts'
import type { NetworkState, OpenNetwork } from './workshop-shapes.ts'
import styles from './network.module.css'

/** A computer that changes its network has another address; the host looks twice a minute. */
const READ_EVERY_MS = 15_000

/** Whether tablets and phones reach the host, how, and the one switch for it; for managers. */
export function NetworkSheet() {
  return (
    <ManagersOnly
      title="Only managers see how tablets reach Panelwright"
      why="Here you open the workshop’s network, so that tablets and phones can be used at the car, and close it again."
    >
      <Network />
    </ManagersOnly>
  )
}

function Network() {
  const query = useQuery({ ...api.network.queryOptions(), refetchInterval: READ_EVERY_MS })
  return <Loaded query={query}>{(state) => <Shown state={state} />}</Loaded>
}

type Doing = 'nothing' | 'asks for plain' | 'waits'

function Shown({ state }: { readonly state: NetworkState }) {
  const { session } = useActor()
  const { ask, refusal } = useAsManager()
  const [doing, setDoing] = useState<Doing>('nothing')
  const change = async (send: () => ReturnType<typeof client.closeNetwork.mutate>) => {
    setDoing('waits')
    await ask(send)
    await queryClient.invalidateQueries({ queryKey: api.network.queryKey() })
    setDoing('nothing')
  }
  const open = (scheme: 'https' | 'http') => void change(() => client.openNetwork.mutate({ scheme }))
  const isWaiting = doing === 'waits'
  return (
    <div className="stack">
      {state.kind === 'closed' ? <WhatOpeningMeans /> : <HowToReach state={state} />}
      <RefusalNote refusal={refusal} />
      {session.isHostsOwn ? (
        <div className="button-row">
          {(state.kind === 'closed' || state.scheme === 'http') && (
            <Button kind="main" disabled={isWaiting} onClick={() => open('https')}>
              {state.kind === 'closed' ? 'Open the workshop network' : 'Open it with encryption instead'}
            </Button>
          )}
          {state.kind === 'open' && (
            <Button
              kind="warn"
              disabled={isWaiting}
              onClick={() => void change(() => client.closeNetwork.mutate())}
            >
              Close the workshop network
            </Button>
          )}
          {state.kind === 'closed' && (
            <WordButton disabled={isWaiting} onClick={() => setDoing('asks for plain')}>
              open it without encryption
            </WordButton>
          )}
        </div>
      ) : (
        <p className="quiet">
          The network is opened and closed in Panelwright’s own window, on the computer that it runs on.
        </p>
      )}
      {state.kind === 'open' && state.trust !== null && <TrustSteps state={state} trust={state.trust} />}
      {doing === 'asks for plain' && (
        <OpenPlainDialog onClose={() => setDoing('nothing')} onOpen={() => open('http')} />
      )}
    </div>
  )
}

function WhatOpeningMeans() {
  return (
    <section className="stack-tight">
      <h2>The workshop network is closed</h2>
      <p>Only this computer reaches Panelwright. When you open the network:</p>
      <ul className={styles.points}>
        <li>
          Tablets and phones on the workshop’s cable or Wi-Fi reach Panelwright at an address that is shown
          here. The internet does not.
        </li>
        <li>
          They see nothing until you let each of them in under Devices. What is signed still needs the
          person’s own code.
        </li>
        <li>
          Everything that is sent is encrypted. Each tablet is told once to trust this computer; the steps are
          shown here.
        </li>
        <li>It stays open when Panelwright is started again, until you close it.</li>
      </ul>
    </section>
  )
}

function HowToReach({ state: { origins, problem, scheme } }: { readonly state: OpenNetwork }) {
  return (
    <section className="stack-tight">
      <h2>The workshop network is open</h2>
      {scheme === 'http' && <PlainNotice />}
      {problem !== null && (
        <Notice kind="held">
          <p className="strong">{problem.message}</p>
          <p>{problem.next}</p>
        </Notice>
      )}
      {origins.length > 0 && (
        <>
          <p>
            {origins.length === 1
              ? 'Type this address in the tablet’s browser:'
              : 'Type one of these addresses in the tablet’s browser; which of them depends on its network:'}
          </p>
          <ul className={styles.addresses}>
            {origins.map((origin) => (
              <li key={origin}>{origin}</li>
            ))}
          </ul>
          <p>
            Then{' '}
            <Link to="/workshop" search={{ sheet: 'devices' }}>
              let it in under Devices
            </Link>
            .
          </p>
        </>
      )}
      <p className="quiet">
        Closing ends every connection at once. What was entered on a tablet stays on it and is sent when the
        network is open again.
      </p>
    </section>
  )
}

function PlainNotice() {
  return (
    <Notice kind="caution">
      <p className="strong">Caution: nothing is encrypted.</p>
      <p>
        Whoever is in this network can read and change what is sent, the codes that people type included. Open
        it with encryption as soon as you can.
      </p>
    </Notice>
  )
}
