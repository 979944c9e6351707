import { workshopSettingsSchema, type WorkshopSettings } from '../../domain/facts/workshop-facts.ts'
import { CheckField, NumberField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { GapFigure } from './gap-figure.tsx'
import styles from './limits.module.css'
import { WatchFigure } from './watch-figure.tsx'

/** The limits while they are set: the drawings follow what is typed. */
export function LimitsForm({
  settings,
  onDone,
}: {
  readonly settings: WorkshopSettings
  readonly onDone: () => void
}) {
  const command = useCommand()
  const form = useZodForm(workshopSettingsSchema, { ...settings, conditions: { ...settings.conditions } })
  const { control } = form
  const values = form.watch()
  return (
    <Form
      form={form}
      submit="Set them from now on"
      refusal={command.refusal}
      onCancel={onDone}
      onSubmit={async (payload) => {
        if (isSettled(await command.send({ kind: 'changeSettings', carId: null, payload }))) onDone()
      }}
    >
      <p className="quiet">
        New limits hold for gates that are still to be passed. What was passed keeps the limits it was judged
        by.
      </p>
      <div className={styles.cells}>
        <section className="stack-tight">
          <h2 className={styles.heading}>Fire watch after hot work</h2>
          <WatchFigure minutes={figure(values.watchMinutes, settings.watchMinutes)} />
          <NumberField
            control={control}
            name="watchMinutes"
            label="Watch"
            unit="min"
            hint="30 at least; your insurer or the local rules may ask for more."
          />
        </section>
        <section className="stack-tight">
          <h2 className={styles.heading}>Gaps and flush</h2>
          <GapFigure
            nominal={figure(values.gapNominalMm, settings.gapNominalMm)}
            tolerance={figure(values.gapToleranceMm, settings.gapToleranceMm)}
            flush={figure(values.flushToleranceMm, settings.flushToleranceMm)}
          />
          <div className="field-row">
            <NumberField control={control} name="gapNominalMm" label="Gap" unit="mm" />
            <NumberField control={control} name="gapToleranceMm" label="More or less" unit="mm" />
            <NumberField control={control} name="flushToleranceMm" label="Step at most" unit="mm" />
          </div>
        </section>
        <section className="stack-tight">
          <h2 className={styles.heading}>Conditions for coats</h2>
          <div className="field-row">
            <NumberField
              control={control}
              name="conditions.minMarginC"
              label="Steel above the dew point"
              unit="°C"
            />
            <NumberField
              control={control}
              name="conditions.maxHumidityPercent"
              label="Humidity at most"
              unit="%"
              hint="Empty for no limit."
            />
            <NumberField control={control} name="conditions.minAirC" label="Air, coldest" unit="°C" />
            <NumberField control={control} name="conditions.maxAirC" label="Air, warmest" unit="°C" />
          </div>
        </section>
        <section className="stack-tight">
          <h2 className={styles.heading}>Reference dimensions</h2>
          <div className="field-row">
            <NumberField control={control} name="datumLimitMm" label="Datum points, drift" unit="mm" />
            <NumberField control={control} name="apertureLimitMm" label="Apertures, drift" unit="mm" />
          </div>
        </section>
        <section className="stack-tight">
          <h2 className={styles.heading}>Figures by person</h2>
          <CheckField
            control={control}
            name="figuresByPerson"
            label="Show figures by person"
            hint="Managers see them, and each person their own. Check first what your local law says."
          />
        </section>
      </div>
    </Form>
  )
}

/** What is typed, as far as it can be drawn. */
const figure = (typed: number | null, before: number): number =>
  typed === null || !Number.isFinite(typed) || typed <= 0 ? before : typed
