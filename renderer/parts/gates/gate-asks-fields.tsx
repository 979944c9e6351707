import type { FieldValues } from 'react-hook-form'
import type { ConditionLimits } from '../../../domain/facts/shapes.ts'
import { CheckField, ChoiceField, NumberField } from '../form/fields.tsx'
import { pathIn, type GateForm } from './gate-form.ts'
import { OptionalPart } from './optional-part.tsx'
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
  return (
    <OptionalPart
      control={control}
      name={path('asks.conditions')}
      label="Conditions are read: air, humidity and steel"
      usual={limits}
    >
      {FIGURES.map(({ name, label, unit }) => (
        <NumberField
          key={name}
          control={control}
          name={path(`asks.conditions.${name}`)}
          label={label}
          unit={unit}
        />
      ))}
    </OptionalPart>
  )
}

const FIGURES = [
  { name: 'minMarginC', label: 'Steel above dew point', unit: '°C' },
  { name: 'maxHumidityPercent', label: 'Humidity at most', unit: '%' },
  { name: 'minAirC', label: 'Air, coldest', unit: '°C' },
  { name: 'maxAirC', label: 'Air, warmest', unit: '°C' },
] as const

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
