import type { PhotoServes } from '../../domain/facts/work-facts.ts'
import { GATES } from '../../domain/gates.ts'
import type { RepairId } from '../../domain/ids.ts'
import type { SectionLayer } from '../../domain/views/shared-views.ts'
import { ChoiceRow, SelectInput } from './fields.tsx'
import type { GatePhoto, Shows } from './photo-aim.ts'

export type ShownLayers = readonly Pick<SectionLayer, 'id' | 'name'>[]

export interface ShownRepair {
  readonly repairId: RepairId
  readonly layers: ShownLayers
}

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
          choices={GATES.map((gate) => ({ value: gate, words: gate }))}
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

const SHOWS_CHOICES: readonly { readonly value: Shows; readonly words: string }[] = [
  { value: 'before', words: 'before' },
  { value: 'work', words: 'the work' },
  { value: 'after', words: 'after' },
  { value: 'layer', words: 'a layer' },
  { value: 'prepared', words: 'prepared surface' },
  { value: 'as left', words: 'as left' },
]

/** 'opened, inner sill, before', and 'the car as a whole'. */
export function shownWords(serves: readonly PhotoServes[], layers: ShownLayers): string {
  const [first] = serves
  if (first === undefined || first.what === 'car') return 'the car as a whole'
  if (first.what === 'task') return 'a task'
  const layer = layers.find(({ id }) => id === first.layerId)?.name
  const shows = SHOWS_CHOICES.find(({ value }) => value === first.shows)?.words
  return [first.gate, layer, shows === 'a layer' && layer !== undefined ? undefined : shows]
    .filter(Boolean)
    .join(', ')
}
