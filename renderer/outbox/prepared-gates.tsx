import { Link } from '@tanstack/react-router'
import { useState } from 'react'
import type { CommandPayload } from '../../domain/commands/command-shapes.ts'
import type { CarId, RepairId } from '../../domain/ids.ts'
import { outbox, useHostAway, useOutbox } from './outbox.ts'
import type { PreparedGate } from './prepared-gate.ts'
import { useActor } from '../parts/sign/actor.tsx'
import { Button } from '../parts/form/button.tsx'
import { Notice } from '../parts/form/notice.tsx'
import styles from './outbox-sheet.module.css'
import { PutAside } from '../parts/form/put-aside.tsx'

/** What is prepared on this device for one repair; nothing where there is none. */
export function PreparedHere({ repairId }: { readonly repairId: RepairId }) {
  const gates = useOutbox().prepared.filter((gate) => repairsOf(gate).includes(repairId))
  if (gates.length === 0) return null
  return (
    <div className="stack-tight">
      {gates.map((gate) => (
        <Prepared key={gate.command.id} gate={gate} />
      ))}
    </div>
  )
}

/** A gate that is prepared and not signed: all that it says, and the one step that signs it once the host answers. */
export function Prepared({
  gate,
  onOpen,
}: {
  readonly gate: PreparedGate
  /** Called when the repair is opened; without it there is no way there, as it is open already. */
  readonly onOpen?: () => void
}) {
  const { askSignature } = useActor()
  const isAway = useHostAway()
  const [isShown, setIsShown] = useState(true)
  const { title, says, confirm, second, cautions, refusal } = gate
  const sign = async () => {
    setIsShown(false)
    await askSignature({ title, says, confirm, second, cautions }, (signature) =>
      outbox.signPrepared(gate, signature),
    )
    setIsShown(true)
  }
  const [repairId] = repairsOf(gate)
  return (
    <Notice kind={refusal === null ? 'held' : 'plain'}>
      <p className="strong">{title}: prepared, not signed yet</p>
      {says.map((words) => (
        <p key={words}>{words}</p>
      ))}
      {refusal !== null && (
        <Notice kind="refused">
          <p className="strong">It was not signed: {refusal.message}</p>
          <p>{refusal.next}</p>
          <p>What was prepared stays here until you put it aside.</p>
        </Notice>
      )}
      {isAway && <p className="quiet">It can be signed once the host answers.</p>}
      <div className={styles.acts}>
        <Button kind={isAway ? 'plain' : 'main'} disabled={isAway || !isShown} onClick={() => void sign()}>
          {refusal === null ? confirm : `${confirm} again`}
        </Button>
        {onOpen !== undefined && repairId !== undefined && gate.command.carId !== null && (
          <OpenRepair carId={gate.command.carId} repairId={repairId} onOpen={onOpen} />
        )}
        <PutAside
          words="It was not signed, and nothing of it has been recorded."
          onPutAside={() => void outbox.dismissPrepared(gate.command.id)}
        />
      </div>
    </Notice>
  )
}

export function OpenRepair({
  carId,
  repairId,
  words = 'Open the repair',
  onOpen,
}: {
  readonly carId: CarId
  readonly repairId: RepairId
  readonly words?: string
  readonly onOpen: () => void
}) {
  return (
    <Link
      className="button"
      to="/cars/$carId/repairs/$repairId"
      params={{ carId, repairId }}
      onClick={onOpen}
    >
      {words}
    </Link>
  )
}

function repairsOf({ command }: PreparedGate): readonly RepairId[] {
  return command.kind === 'passGate' ? (command.payload as CommandPayload<'passGate'>).repairIds : []
}
