import { judgeEdge, summariseEdge } from '../../../domain/measure/gaps.ts'
import { fixed, joinWords } from '../../../domain/text/words.ts'
import type { EdgeView } from '../../../domain/views/shared-views.ts'
import { WordButton } from '../form/button.tsx'
import { NumberInput } from '../form/inputs.tsx'
import { Measured } from './measured.tsx'

/** What stands in the boxes of one edge; null is an empty box, NaN no figure. */
export interface EdgeEntry {
  readonly gapsMm: readonly (number | null)[]
  readonly flushMm: number | null
}

/** Ends and middle. */
const PLACES = 3
const MOST_PLACES = 12

export const emptyEdge: EdgeEntry = { gapsMm: Array.from({ length: PLACES }, () => null), flushMm: null }

export const readGaps = ({ gapsMm }: EdgeEntry): readonly number[] =>
  gapsMm.filter((gap) => gap !== null && !Number.isNaN(gap)).map(Number)

/** The gap at some places along one edge and its flush step, judged while they are typed. */
export function EdgeFields({
  edge,
  entry,
  onChange,
}: {
  readonly edge: EdgeView
  readonly entry: EdgeEntry
  readonly onChange: (entry: EdgeEntry) => void
}) {
  const { name, nominalMm, toleranceMm, flushToleranceMm } = edge
  const setGap = (index: number, gap: number | null) =>
    onChange({ ...entry, gapsMm: entry.gapsMm.map((each, place) => (place === index ? gap : each)) })
  return (
    <fieldset className="field edge">
      <legend>{name}</legend>
      <p className="small quiet">
        gap {fixed(nominalMm, 1)} ± {fixed(toleranceMm, 1)} mm, flush within {fixed(flushToleranceMm, 1)} mm
      </p>
      <div className="edge-boxes">
        {entry.gapsMm.map((gap, index) => (
          <NumberInput
            key={index}
            unit="mm"
            aria-label={`${name}, gap at place ${index + 1}`}
            value={gap}
            onChange={(value) => setGap(index, value)}
          />
        ))}
      </div>
      <div className="row">
        <span className="small strong">flush step</span>
        <div className="edge-flush">
          <NumberInput
            unit="mm"
            aria-label={`${name}, flush step, minus when the hung part stands low`}
            value={entry.flushMm}
            onChange={(flushMm) => onChange({ ...entry, flushMm })}
          />
        </div>
        {entry.gapsMm.length < MOST_PLACES && (
          <WordButton onClick={() => onChange({ ...entry, gapsMm: [...entry.gapsMm, null] })}>
            one more place
          </WordButton>
        )}
      </div>
      <EdgeMeasured edge={edge} entry={entry} />
    </fieldset>
  )
}

function EdgeMeasured({ edge, entry }: { readonly edge: EdgeView; readonly entry: EdgeEntry }) {
  const reading = { gapsMm: readGaps(entry), flushMm: entry.flushMm ?? 0 }
  const summary = summariseEdge(reading)
  if (!summary.ok) return <Measured isInside={null} words="not read yet" />
  const { inside, problems } = judgeEdge(reading, edge)
  const { minMm, maxMm, taperMm } = summary.value
  const range = `${fixed(minMm, 1)} to ${fixed(maxMm, 1)} mm, taper ${fixed(taperMm, 1)} mm`
  return (
    <Measured isInside={inside} words={inside ? `${range}: inside` : `${range}: ${joinWords(problems)}`} />
  )
}
