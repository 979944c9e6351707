import { useQuery } from '@tanstack/react-query'
import { api, client, queryClient } from '../client.ts'
import { Button } from '../parts/form/button.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { ManagersOnly } from '../parts/frame/managers-only.tsx'
import { RefusalNote } from '../parts/form/notice.tsx'
import { CheckDoing } from './check-doing.tsx'
import { CheckFindings, CheckResult } from './check-result.tsx'
import { MendForm } from './mend-form.tsx'
import { useAsManager } from './use-as-manager.ts'
import styles from './check.module.css'
import type { CheckState } from './workshop-shapes.ts'

const SOON_MS = 500

/** Whether anything of the workshop was lost or changed on the disk, and mending of what can be; for managers. */
export function CheckSheet() {
  return (
    <ManagersOnly
      title="Only managers check the workshop’s folder"
      why="Here you have every record and every photo read and compared with what was stored, and mend what can be made again."
    >
      <Check />
    </ManagersOnly>
  )
}

function Check() {
  const query = useQuery({
    ...api.check.queryOptions(),
    refetchInterval: ({ state }) => (state.data?.doing.kind === 'nothing' ? false : SOON_MS),
  })
  return <Loaded query={query}>{(state) => <Shown state={state} />}</Loaded>
}

function Shown({ state: { doing, last, mendable, copiesFolder } }: { readonly state: CheckState }) {
  const { ask, refusal } = useAsManager()
  const act = async (send: () => ReturnType<typeof client.startCheck.mutate>) => {
    const answer = ask(send)
    await Promise.race([answer, new Promise((resolve) => window.setTimeout(resolve, SOON_MS))])
    await queryClient.invalidateQueries({ queryKey: api.check.queryKey() })
    await answer
    await queryClient.invalidateQueries({ queryKey: api.check.queryKey() })
  }
  return (
    <div className="stack">
      <section className="stack-tight">
        <h2>Is everything as it was recorded?</h2>
        <p className={styles.prose}>
          The check follows the journal line by line, makes the tables anew and compares them, and reads every
          photo, report and brought-in journal. It only reads, and everybody goes on working. Many photos take
          a while.
        </p>
        <RefusalNote refusal={refusal} />
        {doing.kind === 'nothing' ? (
          <div className="button-row">
            <Button kind="main" onClick={() => void act(() => client.startCheck.mutate())}>
              {last === null ? 'Check now' : 'Check again'}
            </Button>
          </div>
        ) : (
          <CheckDoing doing={doing} onStop={() => void act(() => client.stopCheck.mutate())} />
        )}
      </section>
      {last !== null && doing.kind !== 'checking' && (
        <section className={`stack ${styles.last}`}>
          <h2>The last check</h2>
          <CheckResult last={last} />
          <CheckFindings last={last} />
          {mendable > 0 && doing.kind === 'nothing' && (
            <MendForm
              count={mendable}
              folder={copiesFolder}
              onMend={(from) => act(() => client.mendChecked.mutate({ from }))}
            />
          )}
        </section>
      )}
    </div>
  )
}
