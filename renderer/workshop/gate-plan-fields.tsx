import type { ConditionLimits } from '../../domain/facts/shapes.ts'
import { gatesBefore, type Gate } from '../../domain/gates.ts'
import { asChoices } from '../parts/form/as-choices.ts'
import {
  CheckField,
  ChoiceField,
  HoursThreePointField,
  NumberField,
  SelectField,
} from '../parts/form/fields.tsx'
import type { PlanForm } from './plan-form.ts'
import styles from './types.module.css'

/** One gate of a type: hours at three points, who and where, what it waits for and what it asks for. */
export function GatePlanFields({
  form,
  gate,
  skills,
  bayKinds,
  limits,
}: {
  readonly form: PlanForm
  readonly gate: Gate
  readonly skills: readonly string[]
  readonly bayKinds: readonly string[]
  /** The workshop's own, to start conditions from. */
  readonly limits: ConditionLimits
}) {
  const { control } = form
  const at = `gates.${gate}` as const
  return (
    <div className={styles.gateBox}>
      <HoursThreePointField control={control} name={`${at}.hours`} label={`Person-hours, ${gate}`} />
      <div className="field-row">
        <SelectField
          control={control}
          name={`${at}.skill`}
          label="Skill"
          choices={asChoices(skills)}
          hint="New skills are named under People."
        />
        <NumberField control={control} name={`${at}.people`} label="Together" unit="people" />
        <SelectField
          control={control}
          name={`${at}.bayKind`}
          label="Kind of bay"
          choices={asChoices(bayKinds)}
          hint="New kinds are named under Bays."
        />
        <NumberField
          control={control}
          name={`${at}.cureHours`}
          label="Cures"
          unit="h"
          hint="The next gate waits."
        />
      </div>
      <CheckField
        control={control}
        name={`${at}.hotWork`}
        label="Hot work: cutting, grinding or welding"
        hint="Stopping its clock starts a fire watch."
      />
      <WindowFields form={form} gate={gate} />
      <AskFields form={form} gate={gate} limits={limits} />
    </div>
  )
}

/** The latest time after an earlier gate, or none. */
function WindowFields({ form, gate }: { readonly form: PlanForm; readonly gate: Gate }) {
  const at = `gates.${gate}.window` as const
  const window = form.watch(at)
  const before = gatesBefore({ primedFirst: form.watch('primedFirst') }, gate)
  const first = before.at(-1)
  if (first === undefined) return null
  return (
    <div className="stack-tight">
      <div className="field">
        <label className="check">
          <input
            type="checkbox"
            checked={window !== null}
            onChange={(event) =>
              form.setValue(at, event.target.checked ? { after: first, hours: 120 } : null, {
                shouldDirty: true,
              })
            }
          />
          Must follow within a time, else the surface is prepared again
        </label>
      </div>
      {window !== null && (
        <div className="field-row">
          <NumberField control={form.control} name={`${at}.hours`} label="Within" unit="h" />
          <SelectField
            control={form.control}
            name={`${at}.after`}
            label="After"
            choices={asChoices(before)}
          />
        </div>
      )}
    </div>
  )
}

function AskFields({
  form,
  gate,
  limits,
}: {
  readonly form: PlanForm
  readonly gate: Gate
  readonly limits: ConditionLimits
}) {
  const { control } = form
  const at = `gates.${gate}.asks` as const
  const conditions = form.watch(`${at}.conditions`)
  return (
    <div className="stack">
      <h4>Asks for</h4>
      <div className="field-row">
        <NumberField control={control} name={`${at}.photosBefore`} label="Photos before" unit="photos" />
        <NumberField control={control} name={`${at}.photos`} label="Photos of the work" unit="photos" />
        <ChoiceField
          control={control}
          name={`${at}.layerPhotos`}
          label="A photo of each layer"
          choices={asChoices(['none', 'graded', 'repaired'])}
        />
      </div>
      <div className={styles.checks}>
        {CHECKS.map(({ name, label }) => (
          <CheckField key={name} control={control} name={`${at}.${name}`} label={label} />
        ))}
      </div>
      <div className="field">
        <label className="check">
          <input
            type="checkbox"
            checked={conditions !== null}
            onChange={(event) =>
              form.setValue(`${at}.conditions`, event.target.checked ? { ...limits } : null, {
                shouldDirty: true,
              })
            }
          />
          Conditions are read: air, humidity and steel
        </label>
      </div>
      {conditions !== null && (
        <div className="field-row">
          <NumberField
            control={control}
            name={`${at}.conditions.minMarginC`}
            label="Steel above dew point"
            unit="°C"
          />
          <NumberField
            control={control}
            name={`${at}.conditions.maxHumidityPercent`}
            label="Humidity at most"
            unit="%"
          />
          <NumberField control={control} name={`${at}.conditions.minAirC`} label="Air, coldest" unit="°C" />
          <NumberField control={control} name={`${at}.conditions.maxAirC`} label="Air, warmest" unit="°C" />
        </div>
      )}
    </div>
  )
}

const CHECKS = [
  { name: 'safety', label: 'bracing, battery and fuel safe' },
  { name: 'review', label: 'the estimate reviewed' },
  { name: 'drains', label: 'drain paths checked' },
  { name: 'fitUp', label: 'fit-up and gaps' },
  { name: 'dimensions', label: 'reference dimensions' },
  { name: 'welds', label: 'welds counted' },
  { name: 'secondSignature', label: 'a second signature' },
] as const
