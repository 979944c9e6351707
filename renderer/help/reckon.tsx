import { useState } from 'react'
import { FieldFrame, NumberInput } from '../parts/form/inputs.tsx'
import type { Reckoning, Term } from './help-shapes.ts'
import styles from './help.module.css'
import { bendFigures, rustFigures, sheetFigures } from './reckoned.ts'

/** What can be reckoned beside a page's words; nothing of it is kept. */
export function Reckon({ what }: { readonly what: Reckoning }) {
  switch (what) {
    case 'sheet':
      return <SheetReckoned />
    case 'bend':
      return <BendReckoned />
    case 'rust':
      return <RustReckoned />
  }
}

function SheetReckoned() {
  const [thickness, setThickness] = useState<Entered>(1)
  return (
    <>
      <div className="field-row">
        <Figure label="Thickness" unit="mm" value={thickness} onChange={setThickness} />
      </div>
      <Told terms={sheetFigures(thickness ?? Number.NaN)} />
    </>
  )
}

function BendReckoned() {
  const [entered, setEntered] = useState(A_BEND)
  const figure = (key: keyof typeof A_BEND, label: string, unit: string) => (
    <Figure
      label={label}
      unit={unit}
      value={entered[key]}
      onChange={(value) => setEntered({ ...entered, [key]: value })}
    />
  )
  const of = (key: keyof typeof A_BEND): number => entered[key] ?? Number.NaN
  const bend = {
    thickness: of('thickness'),
    insideRadius: of('radius'),
    angleDegrees: of('angle'),
    kFactor: of('kFactor'),
  }
  return (
    <>
      <div className="field-row">
        {figure('thickness', 'Thickness of the strip', 'mm')}
        {figure('radius', 'Inside radius', 'mm')}
        {figure('angle', 'Bent through', '°')}
        {figure('kFactor', 'K factor', '')}
        {figure('leg', 'One leg, outside', 'mm')}
        {figure('otherLeg', 'The other leg, outside', 'mm')}
      </div>
      <Told terms={bendFigures(bend, [of('leg'), of('otherLeg')])} />
    </>
  )
}

function RustReckoned() {
  const [share, setShare] = useState<Entered>(5)
  return (
    <>
      <div className="field-row">
        <Figure label="Rusted share" unit="%" value={share} onChange={setShare} />
      </div>
      <Told terms={rustFigures(share ?? Number.NaN)} />
    </>
  )
}

/** NaN for what cannot be read, null for nothing. */
type Entered = number | null

/** A K factor of 0.33 is common practice for tight bends in soft sheet, no source. */
const A_BEND: Readonly<Record<'thickness' | 'radius' | 'angle' | 'kFactor' | 'leg' | 'otherLeg', Entered>> = {
  thickness: 1,
  radius: 1,
  angle: 90,
  kFactor: 0.33,
  leg: 50,
  otherLeg: 30,
}

function Figure({
  label,
  unit,
  value,
  onChange,
}: {
  readonly label: string
  readonly unit: string
  readonly value: Entered
  readonly onChange: (value: Entered) => void
}) {
  return (
    <FieldFrame label={label}>
      {(field) => <NumberInput {...field} unit={unit} value={value} onChange={onChange} />}
    </FieldFrame>
  )
}

function Told({ terms }: { readonly terms: readonly Term[] }) {
  return (
    <dl className={styles.terms} aria-live="polite">
      {terms.map(([word, meaning]) => (
        <div key={word}>
          <dt>{word}</dt>
          <dd>{meaning}</dd>
        </div>
      ))}
    </dl>
  )
}
