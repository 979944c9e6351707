import { useState } from 'react'
import type { HoldScope } from '../../domain/facts/work-facts.ts'
import type { HoldId } from '../../domain/ids.ts'
import type { CarView } from '../../domain/views/view-shapes.ts'
import { Button, WordButton } from '../parts/form/button.tsx'
import { MarkSign } from '../parts/gates/gate-strip.tsx'
import { RefusalNote } from '../parts/form/notice.tsx'
import { SetHoldDialog } from '../parts/gates/set-hold-dialog.tsx'
import { useCommand } from '../parts/form/use-command.ts'
import { useWhen } from '../parts/frame/when.tsx'

/** Holds that the manager set by hand: a visit of the inspector, a payment. */
export function HoldList({ view }: { readonly view: CarView }) {
  const when = useWhen()
  const command = useCommand()
  const [isAdding, setIsAdding] = useState(false)
  return (
    <section className="stack-tight">
      <div className="spread">
        <h3>Holds by hand</h3>
        <Button onClick={() => setIsAdding(true)}>Set a hold</Button>
      </div>
      {view.holds.length === 0 && (
        <p className="quiet">None. Set one for what the program cannot know: a payment, an inspector.</p>
      )}
      <ul className="lines">
        {view.holds.map((hold) => (
          <li key={hold.holdId} className="line">
            <span>
              <MarkSign mark="held" /> <span className="strong">{hold.on}</span>: {hold.words}{' '}
              <span className="quiet small">
                cleared by {hold.clears}
                {hold.expected !== null && `, expected ${when.day(hold.expected)}`}
              </span>
            </span>
            <WordButton
              onClick={() =>
                void command.send({
                  kind: 'clearHold',
                  carId: view.header.carId,
                  payload: { holdId: hold.holdId as HoldId, note: '' },
                })
              }
            >
              it is cleared
            </WordButton>
          </li>
        ))}
      </ul>
      <RefusalNote refusal={command.refusal} />
      {isAdding && (
        <SetHoldDialog carId={view.header.carId} scopes={scopesOf(view)} onClose={() => setIsAdding(false)} />
      )}
    </section>
  )
}

function scopesOf({ repairs, tasks }: CarView) {
  const scope = (of: HoldScope, words: string, group: string) => ({ scope: of, words, group })
  return [
    scope({ kind: 'car' }, 'the whole car', 'Car'),
    ...repairs
      .filter((repair) => !repair.retired && !repair.finished)
      .flatMap(({ id, name, marks }) => [
        scope({ kind: 'repair', repairId: id }, `${name}: all gates`, name),
        ...marks
          .filter(({ mark }) => mark !== 'passed' && mark !== 'not needed')
          .map(({ gate }) => scope({ kind: 'gate', repairId: id, gate }, `${name}: ${gate}`, name)),
      ]),
    ...tasks
      .filter(({ status }) => status === 'open')
      .map(({ id, name }) => scope({ kind: 'task', taskId: id }, name, 'Tasks')),
  ]
}
