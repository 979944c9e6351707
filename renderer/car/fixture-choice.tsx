import { FEW_FIXTURES } from '../../domain/facts/plan-facts.ts'
import type { CarView } from '../../domain/views/view-shapes.ts'
import { ChoiceRow } from '../parts/form/inputs.tsx'
import { standingWords } from '../parts/measure/fixtures.ts'
import { RefusalNote } from '../parts/form/notice.tsx'
import { useCommand } from '../parts/form/use-command.ts'

const NONE = 'none'
const CHOICES = [
  { value: NONE, words: 'on none' },
  ...FEW_FIXTURES.map((value) => ({ value, words: standingWords[value] })),
] as const

/** The fixture that the plan keeps for the car while its load-bearing repairs are done. */
export function FixtureChoice({ view }: { readonly view: CarView }) {
  const command = useCommand()
  const plan = (value: (typeof CHOICES)[number]['value']) =>
    void command.send({
      kind: 'planFixture',
      carId: view.header.carId,
      payload: { fixture: value === NONE ? null : value },
    })
  return (
    <>
      <ChoiceRow
        label="Load-bearing repairs planned"
        hint="The plan keeps it for the car, and waits until one is free."
        choices={CHOICES}
        value={view.fixturePlanned ?? NONE}
        onChange={plan}
      />
      <RefusalNote refusal={command.refusal} />
    </>
  )
}
