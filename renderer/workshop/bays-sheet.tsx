import { useState } from 'react'
import type { BayId } from '../../domain/ids.ts'
import { joinWords } from '../../domain/text/words.ts'
import { Button, WordButton } from '../parts/form/button.tsx'
import { EmptyState, Notice, RefusalNote } from '../parts/form/notice.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { BayDialog } from './bay-dialog.tsx'
import { BayPlaceFields } from './bay-place-fields.tsx'
import { BayPlan } from './bay-plan.tsx'
import { type BayPlace, freePlace } from '../parts/drawing/bay-place.ts'
import { isSamePlace, overlaps } from './bay-places.ts'
import styles from './bays.module.css'
import { knownBayKinds } from './known-words.ts'
import type { Workshop, WorkshopBay } from './workshop-shapes.ts'

/** The floor as it is: the bays put where they are, each with what can be done in it. */
export function BaysSheet({ view }: { readonly view: Workshop }) {
  const [moved, setMoved] = useState<ReadonlyMap<BayId, BayPlace>>(new Map())
  const [chosenId, setChosenId] = useState<BayId | null>(null)
  const [doing, setDoing] = useState<{ readonly bay: WorkshopBay | null } | null>(null)
  const placed = view.bays
    .filter((bay) => bay.active)
    .map((bay) => ({ bay, place: moved.get(bay.id) ?? bay.floor }))
  const taken = view.bays.filter((bay) => !bay.active)
  const chosen = placed.find(({ bay }) => bay.id === chosenId) ?? null
  const changed = placed.filter(({ bay, place }) => !isSamePlace(bay.floor, place))
  const place = (id: BayId, at: BayPlace) => setMoved((before) => new Map(before).set(id, at))
  const clashes = overlaps(placed)
  return (
    <div className="stack">
      {placed.length === 0 ? (
        <EmptyState
          title="The floor is empty"
          action={
            <Button kind="main" onClick={() => setDoing({ bay: null })}>
              Add the first bay
            </Button>
          }
        >
          Give each place for a car a name and what can be done in it; then put it where it is. The shop floor
          is drawn from this.
        </EmptyState>
      ) : (
        <div className={styles.page}>
          <div className="stack-tight">
            <BayPlan bays={placed} chosenId={chosenId} onChoose={setChosenId} onPlace={place} />
            <p className="small quiet">
              Drag a bay, or its lower right corner. By keyboard: the arrow keys move it, with Shift they
              change its size. A square is a metre.
            </p>
            {clashes.length > 0 && (
              <Notice kind="held">Standing in each other’s place: {clashes.join('; ')}.</Notice>
            )}
            <KeepArrangement changed={changed} onKept={() => setMoved(new Map())} />
          </div>
          <aside className="stack">
            <Button kind={changed.length > 0 ? 'plain' : 'main'} onClick={() => setDoing({ bay: null })}>
              Add a bay
            </Button>
            {chosen === null ? (
              <p className="quiet">Choose a bay on the plan or below.</p>
            ) : (
              <section className="stack-tight" aria-live="polite">
                <div className="spread">
                  <h2>{chosen.bay.name}</h2>
                  <WordButton onClick={() => setDoing({ bay: chosen.bay })}>name and kinds</WordButton>
                </div>
                <p className="small quiet">{joinWords(chosen.bay.kinds)}</p>
                <BayPlaceFields
                  key={chosen.bay.id}
                  place={chosen.place}
                  onPlace={(at) => place(chosen.bay.id, at)}
                />
              </section>
            )}
            <ul className="lines">
              {placed.map(({ bay }) => (
                <li key={bay.id} className="line">
                  <WordButton onClick={() => setChosenId(bay.id)} aria-pressed={bay.id === chosenId}>
                    {bay.name}
                  </WordButton>
                  <span className="small quiet">{bay.kinds.join(', ')}</span>
                </li>
              ))}
              {taken.map((bay) => (
                <li key={bay.id} className="line">
                  <span className="quiet">{bay.name}, taken out</span>
                  <WordButton onClick={() => setDoing({ bay })}>change</WordButton>
                </li>
              ))}
            </ul>
          </aside>
        </div>
      )}
      {doing !== null && (
        <BayDialog
          bay={doing.bay}
          place={doing.bay === null ? freePlace(placed) : (moved.get(doing.bay.id) ?? doing.bay.floor)}
          kinds={knownBayKinds(view)}
          onClose={() => setDoing(null)}
        />
      )}
    </div>
  )
}

/** Moves are tried out on the plan first; nothing is kept before the button. */
function KeepArrangement({
  changed,
  onKept,
}: {
  readonly changed: readonly { readonly bay: WorkshopBay; readonly place: BayPlace }[]
  readonly onKept: () => void
}) {
  const command = useCommand()
  const keep = async () => {
    for (const { bay, place } of changed) {
      const { id: bayId, name, kinds, active } = bay
      const payload = { bayId, name, kinds: [...kinds], active, floor: { ...place } }
      if (!isSettled(await command.send({ kind: 'changeBay', carId: null, payload }))) return
    }
    onKept()
  }
  return (
    <>
      <RefusalNote refusal={command.refusal} />
      <div className="button-row">
        <Button kind="main" disabled={changed.length === 0 || command.isBusy} onClick={() => void keep()}>
          Keep this arrangement
        </Button>
        {changed.length > 0 && <Button onClick={onKept}>As it was</Button>}
      </div>
    </>
  )
}
