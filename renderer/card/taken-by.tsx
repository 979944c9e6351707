import { useActor } from '../parts/sign/actor.tsx'
import { SelectInput } from '../parts/form/inputs.tsx'
import type { Card } from './use-card.ts'

/** Whose camera it is: where many are clocked on at once, that alone tells most photos apart. */
export function TakenBy({ card, waiting }: { readonly card: Card; readonly waiting: number }) {
  const { session } = useActor()
  return (
    <SelectInput
      label="Who took them"
      choices={session.people
        .filter(({ active }) => active)
        .map(({ id, name }) => ({ value: id, words: name }))}
      value={card.by}
      onChange={(by) => void card.takenBy(by)}
      none="anybody"
      {...(card.by === null && waiting > 0 && { hint: 'say who, and most find their place by themselves' })}
    />
  )
}
