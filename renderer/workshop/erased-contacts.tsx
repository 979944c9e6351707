import { useQuery } from '@tanstack/react-query'
import { api } from '../client.ts'
import { WordButton } from '../parts/form/button.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import type { ToErase } from './erase-dialog.tsx'
import type { ErasedContact, Workshop } from './workshop-shapes.ts'

/** People who no longer work here: their names stay until they ask for them to be erased. */
export function PeopleWhoLeft({
  view: { people },
  onErase,
}: {
  readonly view: Workshop
  readonly onErase: (contact: ToErase) => void
}) {
  const left = people.filter(({ active }) => !active)
  if (left.length === 0) return null
  return (
    <section className="stack-tight">
      <h2>No longer here</h2>
      <ul className="lines">
        {left.map(({ id, name }) => (
          <li key={id} className="line">
            <span className="strong">{name}</span>
            <WordButton onClick={() => onErase({ id, name, isPerson: true })}>
              erase for good …<span className="hidden-word"> {name}</span>
            </WordButton>
          </li>
        ))}
      </ul>
    </section>
  )
}

/** Who was erased, by what they were and when; nothing else is known. */
export function ErasedContacts() {
  const when = useWhen()
  const { data: erased = [] } = useQuery(api.erased.queryOptions())
  if (erased.length === 0) return null
  return (
    <section className="stack-tight">
      <h2>Erased for good</h2>
      <ul className="lines">
        {erased.map(({ id, kind, at }) => (
          <li key={id} className="line">
            {WHAT[kind]}, on {when.day(at)}
          </li>
        ))}
      </ul>
    </section>
  )
}

const WHAT: Readonly<Record<ErasedContact['kind'], string>> = {
  owner: 'An owner',
  insurer: 'An insurer',
  firm: 'A firm',
  person: 'A person who had left',
}
