import type { FieldValues } from 'react-hook-form'
import type { ConditionLimits, GatePlan } from '../../../domain/facts/shapes.ts'
import type { Gate } from '../../../domain/gates.ts'
import { asChoices } from '../form/as-choices.ts'
import { CheckField, HoursThreePointField, NumberField, SelectField } from '../form/fields.tsx'
import { GateAsksFields } from './gate-asks-fields.tsx'
import { pathIn, type GateForm } from './gate-form.ts'
import { OptionalPart } from './optional-part.tsx'

/** One gate of a type or a repair: hours at three points, who and where, what it waits for and what it asks for. */
export function GatePlanFields<Values extends FieldValues>({
  control,
  at,
  gate,
  before,
  skills,
  bayKinds,
  limits,
  hoursHint,
}: GateForm<Values> & {
  readonly gate: Gate
  /** The gates before it, in their order. */
  readonly before: readonly Gate[]
  readonly skills: readonly string[]
  readonly bayKinds: readonly string[]
  /** The workshop's own, to start conditions from. */
  readonly limits: ConditionLimits
  readonly hoursHint?: string
}) {
  const path = pathIn<Values>(at)
  return (
    <>
      <HoursThreePointField
        control={control}
        name={path('hours')}
        label={`Person-hours, ${gate}`}
        hint={hoursHint}
      />
      <div className="field-row">
        <SelectField
          control={control}
          name={path('skill')}
          label="Skill"
          choices={asChoices(skills)}
          hint="New skills are named under People."
        />
        <NumberField control={control} name={path('people')} label="Together" unit="people" />
        <SelectField
          control={control}
          name={path('bayKind')}
          label="Kind of bay"
          choices={asChoices(bayKinds)}
          hint="New kinds are named under Bays."
        />
        <NumberField
          control={control}
          name={path('cureHours')}
          label="Cures"
          unit="h"
          hint="The next gate waits."
        />
      </div>
      <CheckField
        control={control}
        name={path('hotWork')}
        label="Hot work: cutting, grinding or welding"
        hint="Stopping its clock starts a fire watch."
      />
      <WindowFields control={control} at={at} before={before} />
      <GateAsksFields control={control} at={at} limits={limits} />
    </>
  )
}

/** Hours that a window has before anybody says how long: common practice, no source. */
const USUAL_WINDOW_HOURS = 120

/** The latest time after an earlier gate, or none. */
function WindowFields<Values extends FieldValues>({
  control,
  at,
  before,
}: GateForm<Values> & { readonly before: readonly Gate[] }) {
  const path = pathIn<Values>(at)
  const last = before.at(-1)
  if (last === undefined) return null
  return (
    <OptionalPart
      control={control}
      name={path('window')}
      label="Must follow within a time, else the surface is prepared again"
      usual={{ after: last, hours: USUAL_WINDOW_HOURS } satisfies GatePlan['window']}
    >
      <NumberField control={control} name={path('window.hours')} label="Within" unit="h" />
      <SelectField control={control} name={path('window.after')} label="After" choices={asChoices(before)} />
    </OptionalPart>
  )
}
