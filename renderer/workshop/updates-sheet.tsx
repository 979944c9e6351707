import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { z } from 'zod'
import { updateAddressSchema } from '../../domain/updates.ts'
import { api, client, queryClient } from '../client.ts'
import { useActor } from '../parts/sign/actor.tsx'
import { Button } from '../parts/form/button.tsx'
import { ChoiceField, TextField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { ManagersOnly } from '../parts/frame/managers-only.tsx'
import { Notice, RefusalNote } from '../parts/form/notice.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import { AboutProgram } from './about-program.tsx'
import { useAsManager } from './use-as-manager.ts'
import styles from './updates.module.css'
import type { UpdatesState } from './workshop-shapes.ts'

/** Whether newer versions are looked for, where, and what was found; for managers. */
export function UpdatesSheet() {
  return (
    <div className="stack">
      <AboutProgram />
      <ManagersOnly
        title="Only managers see whether there is a newer version"
        why="Here you have a newer version looked for once a week, at an address that you give yourself."
      >
        <Updates />
      </ManagersOnly>
    </div>
  )
}

function Updates() {
  const query = useQuery(api.updates.queryOptions())
  return <Loaded query={query}>{(state) => <Shown state={state} />}</Loaded>
}

type Doing = 'nothing' | 'looks' | 'sets'

function Shown({ state }: { readonly state: UpdatesState }) {
  const { session } = useActor()
  const { ask, refusal } = useAsManager()
  const [doing, setDoing] = useState<Doing>('nothing')
  const act = async (send: () => ReturnType<typeof client.lookForUpdate.mutate>): Promise<boolean> => {
    const answer = await ask(send)
    await queryClient.invalidateQueries({ queryKey: api.updates.queryKey() })
    return answer !== null
  }
  const look = async () => {
    setDoing('looks')
    await act(() => client.lookForUpdate.mutate())
    setDoing('nothing')
  }
  if (doing === 'sets')
    return (
      <UpdatesForm
        address={state.address}
        refusal={refusal}
        onCancel={() => setDoing('nothing')}
        onSet={async (address) => {
          if (await act(() => client.setUpdates.mutate({ address }))) setDoing('nothing')
        }}
      />
    )
  return (
    <div className={`stack ${styles.sheet}`}>
      <Newer state={state} />
      <WhatIsDone state={state} />
      {state.address === null && <RefusalNote refusal={refusal} />}
      <div className="button-row">
        {state.address !== null && (
          <Button kind="main" disabled={doing === 'looks'} onClick={() => void look()}>
            {doing === 'looks' ? 'Looking…' : 'Look now'}
          </Button>
        )}
        {session.isHostsOwn && (
          <Button kind={state.address === null ? 'main' : 'plain'} onClick={() => setDoing('sets')}>
            {state.address === null ? 'Have newer versions looked for' : 'Change or switch off'}
          </Button>
        )}
      </div>
      {!session.isHostsOwn && (
        <p className="quiet">
          The address is set in Panelwright’s own window, on the computer that it runs on.
        </p>
      )}
    </div>
  )
}

function Newer({ state: { newer, version } }: { readonly state: UpdatesState }) {
  if (newer === null) return null
  return (
    <Notice kind="done">
      <p className="strong">
        Version {newer.version} is there. This is {version}.
      </p>
      <p>Nothing is fetched or installed by itself. Copy this address and open it in a browser:</p>
      <p className={styles.address}>{newer.page}</p>
    </Notice>
  )
}

function WhatIsDone({ state: { address, tried, version, newer } }: { readonly state: UpdatesState }) {
  const when = useWhen()
  if (address === null)
    return (
      <section className="stack-tight">
        <h2>Newer versions are not looked for</h2>
        <p>This is version {version}. Panelwright asks nothing of the internet.</p>
        <p>
          You can have it look once a week at an address that you give. It then sends a plain request there
          without anything of the workshop, and tells managers here when a newer version lies there.
        </p>
      </section>
    )
  return (
    <section className="stack-tight">
      <h2>Newer versions are looked for once a week</h2>
      <p>
        At <span className={styles.address}>{address}</span>
      </p>
      {tried === null && <p>Nothing has been asked there yet.</p>}
      {tried !== null && tried.problem === null && newer === null && (
        <p>
          On {when.dayAndTime(tried.at)} there was none: {version} is the newest.
        </p>
      )}
      {tried !== null && tried.problem === null && newer !== null && (
        <p>It was looked last on {when.dayAndTime(tried.at)}.</p>
      )}
      {tried !== null && tried.problem !== null && (
        <Notice kind="caution">
          <p className="strong">On {when.dayAndTime(tried.at)} nothing could be found out.</p>
          <p>{tried.problem}</p>
        </Notice>
      )}
    </section>
  )
}

const schema = z
  .object({ looks: z.enum(['off', 'week']), address: z.string() })
  .superRefine(({ looks, address }, context) => {
    const parsed = updateAddressSchema.safeParse(address)
    if (looks === 'off' || parsed.success) return
    const message = parsed.error.issues[0]?.message ?? 'Give an address.'
    context.addIssue({ code: 'custom', path: ['address'], message })
  })

function UpdatesForm({
  address,
  refusal,
  onSet,
  onCancel,
}: {
  readonly address: string | null
  readonly refusal: ReturnType<typeof useAsManager>['refusal']
  readonly onSet: (address: string | null) => Promise<void>
  readonly onCancel: () => void
}) {
  const form = useZodForm(schema, { looks: 'week', address: address ?? '' })
  const { control, watch } = form
  return (
    <div className={styles.form}>
      <Form
        form={form}
        submit="Set"
        refusal={refusal}
        onCancel={onCancel}
        onSubmit={(values) => onSet(values.looks === 'off' ? null : values.address.trim())}
      >
        <ChoiceField
          control={control}
          name="looks"
          label="Newer versions are looked for"
          choices={[
            { value: 'off', words: 'not at all' },
            { value: 'week', words: 'once a week' },
          ]}
        />
        {watch('looks') === 'week' && (
          <TextField
            control={control}
            name="address"
            label="Address of the version feed"
            hint="https only; from whoever gave you Panelwright"
          />
        )}
      </Form>
    </div>
  )
}
