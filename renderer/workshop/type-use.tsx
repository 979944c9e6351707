import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { useId, useState } from 'react'
import type { RepairId } from '../../domain/ids.ts'
import { joinWords, plural } from '../../domain/text/words.ts'
import type { TypeUseView } from '../../domain/views/view-shapes.ts'
import { api } from '../client.ts'
import { Button, WordButton } from '../parts/form/button.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { RefusalNote } from '../parts/form/notice.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import styles from './types.module.css'
import type { RepairTypeView } from './workshop-shapes.ts'

/** Repairs carry their own copy of their type: which ones carry an older version, and which of them take the newer one. */
export function TypeUse({ type }: { readonly type: RepairTypeView }) {
  const use = useQuery(api.typeUse.queryOptions({ typeId: type.id }))
  return (
    <section className="stack-tight" aria-label="Repairs of this type">
      <h3>Repairs of this type that are not finished</h3>
      <Loaded query={use}>{(view) => <Use view={view} />}</Loaded>
    </section>
  )
}

function Use({ view }: { readonly view: TypeUseView }) {
  const older = view.cars.flatMap((car) => car.older)
  return (
    <>
      <p className="small quiet">
        {older.length === 0
          ? view.current === 0
            ? 'None on a car in the house. '
            : `${plural('repair', view.current)}, all with version ${view.version}. `
          : `${older.length} of ${plural('repair', older.length + view.current)} still with an older version. `}
        Each carries its own copy: a change of the type reaches only those you pick, and only gates not done.
      </p>
      {older.length > 0 && <OlderRepairs view={view} />}
    </>
  )
}

function OlderRepairs({ view }: { readonly view: TypeUseView }) {
  const command = useCommand()
  const [picked, setPicked] = useState<ReadonlySet<RepairId>>(new Set())
  const all = view.cars.flatMap((car) => car.older)
  // What was brought up to date meanwhile is in the list no more.
  const chosen = all.filter(({ repairId }) => picked.has(repairId))
  const toggle = (id: RepairId) => setPicked(new Set([id]).symmetricDifference(picked))

  /** One command a car; the first that is refused says why, and the cars after it stay as they are. */
  const apply = async () => {
    for (const { carId, older } of view.cars) {
      const repairIds = older.map(({ repairId }) => repairId).filter((id) => picked.has(id))
      if (repairIds.length === 0) continue
      if (!isSettled(await command.send({ kind: 'applyType', carId, payload: { repairIds } }))) return
    }
    setPicked(new Set())
  }

  return (
    <>
      {view.cars.map((car) => (
        <div key={car.carId}>
          <h4 className="label">{car.carName}</h4>
          <ul className="lines">
            {car.older.map((repair) => (
              <OlderRepair
                key={repair.repairId}
                car={car}
                repair={repair}
                isPicked={picked.has(repair.repairId)}
                onToggle={() => toggle(repair.repairId)}
              />
            ))}
          </ul>
        </div>
      ))}
      <RefusalNote refusal={command.refusal} />
      <div className="button-row">
        <Button
          kind={chosen.length > 0 ? 'main' : 'plain'}
          disabled={chosen.length === 0}
          aria-busy={command.isBusy}
          onClick={() => void apply()}
        >
          {chosen.length === 0
            ? `Bring version ${view.version} to those ticked`
            : `Bring version ${view.version} to ${plural('repair', chosen.length)}`}
        </Button>
        {chosen.length < all.length && (
          <WordButton onClick={() => setPicked(new Set(all.map(({ repairId }) => repairId)))}>
            tick all
          </WordButton>
        )}
      </div>
    </>
  )
}

type Car = TypeUseView['cars'][number]

function OlderRepair({
  car,
  repair,
  isPicked,
  onToggle,
}: {
  readonly car: Car
  readonly repair: Car['older'][number]
  readonly isPicked: boolean
  readonly onToggle: () => void
}) {
  const id = useId()
  const { repairId, name, version, changes } = repair
  return (
    <li className={styles.older}>
      <label className="choice">
        <input type="checkbox" checked={isPicked} aria-describedby={id} onChange={onToggle} />
        {name}
      </label>
      <span id={id} className={`small quiet ${styles.change}`}>
        {version === null ? 'no version' : `version ${version}`};{' '}
        {changes.length === 0 ? 'nothing changes on its gates not done' : `changes ${joinWords(changes)}`}
      </span>
      <Link
        className={styles.toIt}
        to="/cars/$carId/repairs/$repairId"
        params={{ carId: car.carId, repairId }}
      >
        to it
        <span className="hidden-word">
          : {name}, {car.carName}
        </span>
      </Link>
    </li>
  )
}
