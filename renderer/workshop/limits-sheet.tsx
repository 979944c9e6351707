import { useState } from 'react'
import { Button } from '../parts/form/button.tsx'
import { mm } from '../../domain/text/words.ts'
import { GapFigure } from './gap-figure.tsx'
import { LimitsForm } from './limits-form.tsx'
import styles from './limits.module.css'
import { WatchFigure } from './watch-figure.tsx'
import type { Workshop } from './workshop-shapes.ts'

/** What readings are judged by. Gates that were passed keep the limits they were judged by. */
export function LimitsSheet({ view }: { readonly view: Workshop }) {
  const [isSetting, setIsSetting] = useState(false)
  const { settings } = view
  if (isSetting) return <LimitsForm settings={settings} onDone={() => setIsSetting(false)} />
  return (
    <div className="stack">
      <div className={styles.cells}>
        <section className="stack-tight">
          <h2 className={styles.heading}>Fire watch after hot work</h2>
          <WatchFigure minutes={settings.watchMinutes} />
          <p>
            {settings.watchMinutes} minutes from when the clock on cutting, grinding or welding is stopped;
            never under 30 minutes.
          </p>
          <p className="small quiet">Your insurer or the local rules may ask for more: follow them.</p>
        </section>
        <section className="stack-tight">
          <h2 className={styles.heading}>Gaps and flush</h2>
          <GapFigure
            nominal={settings.gapNominalMm}
            tolerance={settings.gapToleranceMm}
            flush={settings.flushToleranceMm}
          />
          <p>
            {mm(settings.gapNominalMm)} wide, {mm(settings.gapToleranceMm)} more or less; a step of at most{' '}
            {mm(settings.flushToleranceMm)}.
          </p>
          <p className="small quiet">New edges start from these; each edge may have its own.</p>
        </section>
        <section className="stack-tight">
          <h2 className={styles.heading}>Conditions for coats</h2>
          <dl className={styles.figures}>
            <Line label="steel above the dew point" value={`${settings.conditions.minMarginC} °C at least`} />
            <Line label="humidity" value={most(settings.conditions.maxHumidityPercent, '%')} />
            <Line label="air, coldest" value={least(settings.conditions.minAirC, '°C')} />
            <Line label="air, warmest" value={most(settings.conditions.maxAirC, '°C')} />
          </dl>
          <p className="small quiet">The product’s data sheet rules: a repair type may ask for more.</p>
        </section>
        <section className="stack-tight">
          <h2 className={styles.heading}>Reference dimensions</h2>
          <dl className={styles.figures}>
            <Line label="datum points, drift" value={`${mm(settings.datumLimitMm)} at most`} />
            <Line label="apertures, drift" value={`${mm(settings.apertureLimitMm)} at most`} />
          </dl>
          <p className="small quiet">New dimensions start from these; each may have its own.</p>
        </section>
        <section className="stack-tight">
          <h2 className={styles.heading}>Figures by person</h2>
          <p>
            {settings.figuresByPerson
              ? 'On: managers see them, and each person sees their own.'
              : 'Off: hours are shown by car, repair and gate, never by person.'}
          </p>
        </section>
      </div>
      <div>
        <Button kind="main" onClick={() => setIsSetting(true)}>
          Change the limits
        </Button>
      </div>
    </div>
  )
}

function Line({ label, value }: { readonly label: string; readonly value: string }) {
  return (
    <div className="line">
      <dt className="quiet">{label}</dt>
      <dd className="strong">{value}</dd>
    </div>
  )
}

const most = (value: number | null, unit: string): string =>
  value === null ? 'no limit' : `${value} ${unit} at most`
const least = (value: number | null, unit: string): string =>
  value === null ? 'no limit' : `${value} ${unit} at least`
