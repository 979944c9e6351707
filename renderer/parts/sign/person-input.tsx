import type { PersonId } from '../../../domain/ids.ts'
import { SelectInput } from '../form/inputs.tsx'
import type { Person } from './sign-request.ts'

/** One of some people, by name. */
export function PersonInput({
  label,
  people,
  none,
  value,
  onChange,
}: {
  readonly label: string
  readonly people: readonly Person[]
  /** Words for nobody; the value is then null. */
  readonly none?: string
  readonly value: PersonId | null
  readonly onChange: (id: PersonId | null) => void
}) {
  return (
    <SelectInput
      label={label}
      choices={people.map(({ id, name }) => ({ value: id, words: name }))}
      none={none}
      value={value}
      onChange={onChange}
    />
  )
}
