import { GATES } from '../../../domain/gates.ts'
import { asChoices } from '../form/as-choices.ts'
import { ChoiceRow, SelectInput } from '../form/inputs.tsx'
import type { GatePhoto } from './photo-aim.ts'
import { type ShownLayers, SHOWS_CHOICES } from './shown-words.ts'

/** Gate, layer, and before or after: what photos of a repair show. */
export function ShowsFields({
  layers,
  value,
  onChange,
}: {
  readonly layers: ShownLayers
  readonly value: GatePhoto
  readonly onChange: (value: GatePhoto) => void
}) {
  return (
    <>
      <div className="field-row">
        <SelectInput
          label="For which gate"
          choices={asChoices(GATES)}
          value={value.gate}
          onChange={(gate) => gate !== null && onChange({ ...value, gate })}
        />
        <SelectInput
          label="Of which layer"
          choices={layers.map(({ id, name }) => ({ value: id, words: name }))}
          value={value.layerId}
          onChange={(layerId) => onChange({ ...value, layerId })}
          none="the repair as a whole"
        />
      </div>
      <ChoiceRow
        label="What they show"
        choices={SHOWS_CHOICES}
        value={value.shows}
        onChange={(shows) => onChange({ ...value, shows })}
      />
    </>
  )
}
