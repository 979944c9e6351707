import { useId, useState } from 'react'
import { useController, type FieldValues } from 'react-hook-form'
import { nameSchema } from '../../domain/facts/shapes.ts'
import { asChoices } from '../parts/form/as-choices.ts'
import { Button } from '../parts/form/button.tsx'
import { ManyField, type FieldProps } from '../parts/form/fields.tsx'

/** Any of the workshop's own words, and a box for one that is not among them yet. */
export function WordsField<Values extends FieldValues>({
  known,
  another,
  ...props
}: FieldProps<Values> & {
  readonly known: readonly string[]
  /** 'Another skill' */
  readonly another: string
}) {
  const { field } = useController(props)
  const id = useId()
  const [added, setAdded] = useState<readonly string[]>([])
  const [word, setWord] = useState('')
  const chosen: readonly string[] = field.value ?? []
  const words = [...new Set([...known, ...chosen, ...added])]
  const add = () => {
    const parsed = nameSchema.safeParse(word)
    if (!parsed.success) return
    setAdded([...added, parsed.data])
    if (!chosen.includes(parsed.data)) field.onChange([...chosen, parsed.data])
    setWord('')
  }
  return (
    <div className="stack-tight">
      <ManyField {...props} choices={asChoices(words)} />
      <div className="row">
        <label htmlFor={id} className="hidden-word">
          {another}
        </label>
        <input
          id={id}
          className="input"
          style={{ maxWidth: '14rem' }}
          placeholder={another}
          value={word}
          onChange={(event) => setWord(event.target.value)}
          onKeyDown={(event) => {
            if (event.key !== 'Enter') return
            event.preventDefault()
            add()
          }}
        />
        <Button onClick={add} disabled={word.trim() === ''}>
          Add it
        </Button>
      </div>
    </div>
  )
}
