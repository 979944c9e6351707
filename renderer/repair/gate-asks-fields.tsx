import { useController } from 'react-hook-form'
import type { z } from 'zod'
import type { ConditionLimits, gatePlanSchema } from '../../domain/facts/shapes.ts'
import { CheckField, type FormControl, NumberField, SelectField } from '../parts/form/fields.tsx'

type Values = z.input<typeof gatePlanSchema> & { reason: string }

const USUAL: ConditionLimits = { minMarginC: 3, maxHumidityPercent: 85, minAirC: null, maxAirC: null }

/** What a gate asks for before it may be passed. */
export function GateAsksFields({ control }: { readonly control: FormControl<Values> }) {
  return (
    <fieldset className="stack">
      <legend className="strong">It asks for</legend>
      <div className="field-row">
        <NumberField control={control} name="asks.photosBefore" label="Photos before" unit="" />
        <NumberField control={control} name="asks.photos" label="Photos" unit="" />
        <SelectField
          control={control}
          name="asks.layerPhotos"
          label="Photos of layers"
          choices={LAYER_PHOTOS}
        />
      </div>
      <div className="field-row">
        <CheckField control={control} name="asks.safety" label="safety facts of the shell" />
        <CheckField control={control} name="asks.review" label="review of the estimate" />
        <CheckField control={control} name="asks.drains" label="the drain check" />
        <CheckField control={control} name="asks.fitUp" label="fit-up or gaps read" />
        <CheckField control={control} name="asks.dimensions" label="reference dimensions" />
        <CheckField control={control} name="asks.welds" label="the weld plan met" />
        <CheckField control={control} name="asks.secondSignature" label="a second signature" />
      </div>
      <Conditions control={control} />
    </fieldset>
  )
}

function Conditions({ control }: { readonly control: FormControl<Values> }) {
  const { field } = useController({ control, name: 'asks.conditions' })
  return (
    <>
      <label className="check">
        <input
          type="checkbox"
          checked={field.value !== null}
          onChange={(event) => field.onChange(event.target.checked ? USUAL : null)}
        />
        air, humidity and steel temperature
      </label>
      {field.value !== null && (
        <div className="field-row">
          <NumberField
            control={control}
            name="asks.conditions.minMarginC"
            label="Steel above dew point"
            unit="°C"
          />
          <NumberField
            control={control}
            name="asks.conditions.maxHumidityPercent"
            label="Humidity at most"
            unit="%"
          />
          <NumberField control={control} name="asks.conditions.minAirC" label="Air at least" unit="°C" />
          <NumberField control={control} name="asks.conditions.maxAirC" label="Air at most" unit="°C" />
        </div>
      )}
    </>
  )
}

const LAYER_PHOTOS = [
  { value: 'none', words: 'none' },
  { value: 'graded', words: 'each layer that was seen' },
  { value: 'repaired', words: 'each layer that is repaired' },
]
