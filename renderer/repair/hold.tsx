import { Link } from '@tanstack/react-router'
import type { HoldId } from '../../domain/ids.ts'
import type { HoldView } from '../../domain/views/shared-views.ts'
import { useActor } from '../parts/sign/actor.tsx'
import { Button } from '../parts/form/button.tsx'
import { HoldNote } from '../parts/gates/hold-note.tsx'
import { RefusalNote } from '../parts/form/notice.tsx'
import { useCommand } from '../parts/form/use-command.ts'
import { useRepair } from './repair-context.ts'

/** A hold with what can be done about it here: go to where it bites, clear it, release it or ask for that. */
export function Hold({ hold }: { readonly hold: HoldView }) {
  const { view, open } = useRepair()
  const { manager } = useActor()
  const command = useCommand()
  const action = (
    <div className="button-row">
      {hold.otherRepair !== null && (
        <Link
          className="button"
          to="/cars/$carId/repairs/$repairId"
          params={{ carId: view.car.carId, repairId: hold.otherRepair }}
        >
          Go to it
        </Link>
      )}
      {hold.code === 'window' && (
        <Button onClick={() => open({ kind: 'prepared' })}>The surface is prepared again</Button>
      )}
      {hold.code === 'support' && <Button onClick={() => open({ kind: 'lift' })}>Say how it is held</Button>}
      {hold.code === 'by hand' && (
        <Button
          onClick={() =>
            void command.send({
              kind: 'clearHold',
              carId: view.car.carId,
              payload: { holdId: hold.subject as HoldId, note: '' },
            })
          }
        >
          Clear this hold
        </Button>
      )}
      {hold.releasable && (
        <Button onClick={() => open({ kind: 'release', hold })}>
          {manager === null ? 'Ask for a release' : 'Release'}
        </Button>
      )}
    </div>
  )
  return (
    <>
      <HoldNote hold={hold} action={action} />
      <RefusalNote refusal={command.refusal} />
    </>
  )
}
