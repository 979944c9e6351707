import { FieldFrame, NumberInput } from '../parts/form/inputs.tsx'
import { type BayPlace, kept } from '../parts/drawing/bay-place.ts'

const SIDES = [
  { side: 'width', label: 'Width' },
  { side: 'height', label: 'Depth' },
  { side: 'x', label: 'From the left wall' },
  { side: 'y', label: 'From the back wall' },
] as const

/** The same place in figures, in metres to a tenth. */
export function BayPlaceFields({
  place,
  onPlace,
}: {
  readonly place: BayPlace
  readonly onPlace: (place: BayPlace) => void
}) {
  return (
    <div className="field-row">
      {SIDES.map(({ side, label }) => (
        <FieldFrame key={side} label={label}>
          {(ids) => (
            <NumberInput
              {...ids}
              unit="m"
              value={place[side] / 10}
              onChange={(metres) => {
                if (metres === null || Number.isNaN(metres)) return
                onPlace(kept({ ...place, [side]: metres * 10 }))
              }}
            />
          )}
        </FieldFrame>
      ))}
    </div>
  )
}
