import { useState } from 'react'
import type { CarView } from '../../domain/views/view-shapes.ts'
import { Button } from '../parts/form/button.tsx'
import { ChoiceRow } from '../parts/form/inputs.tsx'
import { RefusalNote } from '../parts/form/notice.tsx'
import { useCommand } from '../parts/form/use-command.ts'
import { useWhen } from '../parts/frame/when.tsx'
import { FixtureChoice } from './fixture-choice.tsx'
import { LiftSupportDialog } from '../parts/gates/lift-support-dialog.tsx'

type Item = CarView['safety'][number]['item']

const WORDS: Readonly<
  Record<Item, { readonly name: string; readonly stands: string; readonly not: string }>
> = {
  bracing: { name: 'Bracing', stands: 'braced', not: 'not braced' },
  battery: { name: 'Battery', stands: 'disconnected', not: 'connected' },
  fuel: { name: 'Fuel tank and lines', stands: 'out or purged', not: 'in place' },
}

/** What must stand as safe before load-bearing metal is opened, and where support is lifted. */
export function SafetyList({ view }: { readonly view: CarView }) {
  const when = useWhen()
  const command = useCommand()
  const [isLifting, setIsLifting] = useState(false)
  const set = (item: Item, stands: boolean) =>
    void command.send({ kind: 'setSafety', carId: view.header.carId, payload: { item, stands, note: '' } })
  return (
    <section className="stack-tight">
      <h3>Safety and support</h3>
      {view.safety.map(({ item, stands }) => (
        <ChoiceRow
          key={item}
          label={WORDS[item].name}
          choices={[
            { value: 'stands', words: WORDS[item].stands },
            { value: 'not', words: WORDS[item].not },
          ]}
          value={stands ? 'stands' : 'not'}
          onChange={(value) => set(item, value === 'stands')}
        />
      ))}
      <p className="small quiet">A drained tank is not safe: its fumes burn. Take it out, or purge it.</p>
      <RefusalNote refusal={command.refusal} />
      <FixtureChoice view={view} />
      <ul className="lines">
        {view.lifts.map((lift) => (
          <li key={lift.since} className="line">
            <span>
              Support lifted for {lift.repairs.join(' and ')}: {lift.how}{' '}
              <span className="quiet small">since {when.day(lift.since)}; ends when the shell is moved</span>
            </span>
          </li>
        ))}
      </ul>
      <div>
        <Button onClick={() => setIsLifting(true)}>Lift support for named repairs</Button>
      </div>
      {isLifting && <LiftSupportDialog carId={view.header.carId} onClose={() => setIsLifting(false)} />}
    </section>
  )
}
