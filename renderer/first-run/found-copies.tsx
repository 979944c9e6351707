import { useState } from 'react'
import type { ListedCopy } from '../../domain/copies/copy-shapes.ts'
import { copyWords } from '../../domain/copies/copy-words.ts'
import { Button } from '../parts/form/button.tsx'
import { SelectInput, TextInput } from '../parts/form/inputs.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import type { Chosen, Found } from './restore-shapes.ts'
import { PlainForm } from '../parts/form/form.tsx'

/** The copies that were found, each workshop in a group; the newest whole one is chosen first. */
export function FoundCopies({
  found,
  onRestore,
}: {
  readonly found: Found
  readonly onRestore: (chosen: Chosen) => void
}) {
  const when = useWhen()
  const all = found.flatMap(({ folder, copies }) => copies.map((copy) => ({ folder, copy })))
  const keyOf = (folder: string, { stamp }: ListedCopy) => `${folder} ${stamp}`
  const first = all.find(({ copy }) => copy.isWhole) ?? all[0]
  const [key, setKey] = useState(first === undefined ? null : keyOf(first.folder, first.copy))
  const [passphrase, setPassphrase] = useState('')
  const chosen = all.find(({ folder, copy }) => keyOf(folder, copy) === key)
  return (
    <PlainForm
      onSubmit={() => {
        if (chosen === undefined) return
        const { folder, copy } = chosen
        onRestore({ folder, stamp: copy.stamp, passphrase: copy.isSealed ? passphrase : null })
      }}
    >
      <SelectInput
        label="Copy"
        choices={all.map(({ folder, copy }) => ({
          value: keyOf(folder, copy),
          words: `${when.dayAndTime(copy.made)}${copy.isWhole ? '' : ', not whole'}`,
          group: copy.content?.workshop ?? 'Sealed copies',
        }))}
        value={key}
        onChange={setKey}
        hint={chosen && copyWords(chosen.copy)}
      />
      {chosen?.copy.isSealed === true && (
        <TextInput
          label="Passphrase"
          hint="the one that it was sealed with"
          type="password"
          value={passphrase}
          onChange={setPassphrase}
        />
      )}
      <div className="button-row">
        <Button kind="main" type="submit" disabled={chosen === undefined}>
          Restore this copy
        </Button>
      </div>
    </PlainForm>
  )
}
