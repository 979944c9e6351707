import { useController, type FieldValues } from 'react-hook-form'
import type { ConditionLimits, GatePlan } from '../../../domain/facts/shapes.ts'
import { CheckField, ChoiceField, NumberField } from '../form/fields.tsx'
import { pathIn, type GateForm } from './gate-form.ts'
import styles from './gate-asks-fields.module.css'

/** What a gate asks for before it may be passed. */
export function GateAsksFields<Values extends FieldValues>({
  control,
  at,
  limits,
}: GateForm<Values> & {
  /** Those that conditions start from. */
  readonly limits: ConditionLimits
}) {
  const path = pathIn<Values>(at)
  return (
    <div className="stack">
      <h4>Asks for</h4>
      <div className="field-row">
        <NumberField control={control} name={path('asks.photosBefore')} label="Photos before" unit="photos" />
        <NumberField control={control} name={path('asks.photos')} label="Photos of the work" unit="photos" />
        <ChoiceField
          control={control}
          name={path('asks.layerPhotos')}
          label="A photo of each layer"
          choices={LAYER_PHOTOS}
        />
      </div>
      <div className={styles.checks}>
        {CHECKS.map(({ name, label }) => (
          <CheckField key={name} control={control} name={path(`asks.${name}`)} label={label} />
        ))}
      </div>
      <ConditionFields control={control} at={at} limits={limits} />
    </div>
  )
}

function ConditionFields<Values extends FieldValues>({
  control,
  at,
  limits,
}: GateForm<Values> & { readonly limits: ConditionLimits }) {
  const path = pathIn<Values>(at)
  const { field } = useController({ control, name: path('asks.conditions') })
  const conditions = field.value as GatePlan['asks']['conditions']
  return (
    <>
      <div className="field">
        <label className="check">
          <input
            type="checkbox"
            checked={conditions !== null}
            onChange={(event) => field.onChange(event.target.checked ? { ...limits } : null)}
          />
          Conditions are read: air, humidity and steel
        </label>
      </div>
      {conditions !== null && (
        <div className="field-row">
          <NumberField
            control={control}
            name={path('asks.conditions.minMarginC')}
            label="Steel above dew point"
            unit="°C"
          />
          <NumberField
            control={control}
            name={path('asks.conditions.maxHumidityPercent')}
            label="Humidity at most"
            unit="%"
          />
          <NumberField
            control={control}
            name={path('asks.conditions.minAirC')}
            label="Air, coldest"
            unit="°C"
          />
          <NumberField
            control={control}
            name={path('asks.conditions.maxAirC')}
            label="Air, warmest"
            unit="°C"
          />
        </div>
      )}
    </>
  )
}

const LAYER_PHOTOS = [
  { value: 'none', words: 'none' },
  { value: 'graded', words: 'that was seen' },
  { value: 'repaired', words: 'that is repaired' },
]

const CHECKS = [
  { name: 'safety', label: 'bracing, battery and fuel safe' },
  { name: 'review', label: 'the estimate reviewed' },
  { name: 'drains', label: 'drain paths checked' },
  { name: 'fitUp', label: 'fit-up and gaps' },
  { name: 'dimensions', label: 'reference dimensions' },
  { name: 'welds', label: 'welds counted' },
  { name: 'secondSignature', label: 'a second signature' },
] as const
