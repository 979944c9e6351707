import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { api, client, queryClient } from '../client.ts'
import { useActor } from '../parts/sign/actor.tsx'
import { Button, WordButton } from '../parts/form/button.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { ManagersOnly } from '../parts/frame/managers-only.tsx'
import { Notice, RefusalNote } from '../parts/form/notice.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import { CopiesForm } from './copies-form.tsx'
import { CopiesHow } from './copies-how.tsx'
import { CopiesList } from './copies-list.tsx'
import { CopyDoing } from './copy-doing.tsx'
import { CopiesStand } from './copies-stand.tsx'
import { useAsManager } from './use-as-manager.ts'
import type { CopiesState } from './workshop-shapes.ts'

const SOON_MS = 500

/** Copies of the workshop: how they stand, what there is, making and verifying them, and how one is restored; for managers. */
export function CopiesSheet() {
  return (
    <ManagersOnly
      title="Only managers see the copies of the workshop"
      why="Here you have everything copied to another disk, by hand or every day by itself, so that nothing is lost when this computer is."
    >
      <Copies />
    </ManagersOnly>
  )
}

function Copies() {
  const query = useQuery({
    ...api.copies.queryOptions(),
    refetchInterval: ({ state }) =>
      state.data === undefined || state.data.doing.kind === 'nothing' ? false : SOON_MS,
  })
  return <Loaded query={query}>{(state) => <Shown state={state} />}</Loaded>
}

function Shown({ state }: { readonly state: CopiesState }) {
  const { session } = useActor()
  const { ask, refusal } = useAsManager()
  const [isSetting, setIsSetting] = useState(false)
  const act = async (send: () => ReturnType<typeof client.makeCopy.mutate>): Promise<boolean> => {
    const answer = await ask(send)
    await queryClient.invalidateQueries({ queryKey: api.copies.queryKey() })
    await queryClient.invalidateQueries({ queryKey: api.copiesWarning.queryKey() })
    return answer !== null
  }
  const isIdle = state.doing.kind === 'nothing'
  return (
    <div className="stack">
      <CopiesStand state={state} />
      {state.restored !== null && (
        <Restored restored={state.restored} onRead={() => void act(() => client.restoreRead.mutate())} />
      )}
      {isSetting ? (
        <CopiesForm
          state={state}
          refusal={refusal}
          onCancel={() => setIsSetting(false)}
          onSet={async (asked) => {
            if (await act(() => client.setCopies.mutate(asked))) setIsSetting(false)
          }}
        />
      ) : (
        <>
          {!isIdle && (
            <CopyDoing doing={state.doing} onStop={() => void act(() => client.stopCopy.mutate())} />
          )}
          <RefusalNote refusal={refusal} />
          <div className="button-row">
            {state.set !== null && isIdle && (
              <Button kind="main" onClick={() => void act(() => client.makeCopy.mutate())}>
                Copy now
              </Button>
            )}
            {session.isHostsOwn && isIdle && (
              <Button kind={state.set === null ? 'main' : 'plain'} onClick={() => setIsSetting(true)}>
                {state.set === null ? 'Choose a folder for copies' : 'Change folder and times'}
              </Button>
            )}
          </div>
          {!session.isHostsOwn && (
            <p className="quiet">
              The folder and the times are chosen in Panelwright’s own window, on the computer that it runs
              on.
            </p>
          )}
        </>
      )}
      {state.verified !== null && isIdle && <Verified verified={state.verified} />}
      {state.set !== null && (
        <CopiesList
          mayType={session.isHostsOwn}
          onVerify={
            isIdle
              ? (stamp, passphrase) => void act(() => client.verifyCopy.mutate({ stamp, passphrase }))
              : null
          }
        />
      )}
      <CopiesHow isSealed={state.set?.isSealed === true} />
    </div>
  )
}

/** What is to be known of the copy that this workshop goes on from, until a manager has read it. */
function Restored({
  restored: { made, notes },
  onRead,
}: {
  readonly restored: NonNullable<CopiesState['restored']>
  readonly onRead: () => void
}) {
  const when = useWhen()
  return (
    <Notice kind={notes.length === 0 ? 'done' : 'caution'}>
      <p className="strong">This workshop goes on from the copy of {when.dayAndTime(made)}.</p>
      {notes.map((words) => (
        <p key={words}>{words}</p>
      ))}
      <WordButton onClick={onRead}>I have read this</WordButton>
    </Notice>
  )
}

function Verified({
  verified: { made, problem },
}: {
  readonly verified: NonNullable<CopiesState['verified']>
}) {
  const when = useWhen()
  if (problem === null)
    return (
      <Notice kind="done">
        The copy of {when.dayAndTime(made)} was read to its end: every file is as it was copied.
      </Notice>
    )
  return (
    <Notice kind="refused">
      <p className="strong">The copy of {when.dayAndTime(made)} is not whole.</p>
      <p>{problem}</p>
    </Notice>
  )
}
