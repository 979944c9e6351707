import { drawCardDay, type CardDayToDraw } from '../../domain/drawing/card-day-drawing.ts'
import { workKey, type CardProposal } from '../../domain/import/photo-proposal.ts'
import { DrawingView } from '../parts/drawing/drawing.tsx'
import { useWidth } from '../parts/frame/use-width.ts'
import { useWhen, type When } from '../parts/frame/when.tsx'
import { carById } from './card-shapes.ts'
import { workWords } from './card-words.ts'
import styles from './card.module.css'
import { fitToPlace, placeKey, type PlacedPhoto } from './places.ts'

/** The photos of each day drawn against the clocks: a clock that is off shows as uprights beside the bars. */
export function CardDays({
  proposal,
  photos,
}: {
  readonly proposal: CardProposal
  readonly photos: readonly PlacedPhoto[]
}) {
  const when = useWhen()
  const { ref, width } = useWidth<HTMLDivElement>()
  const days = proposal.days.flatMap((day) => dayToDraw(proposal, photos, day, when) ?? [])
  if (days.length === 0) return null
  return (
    <details className={styles.folded} open={days.length === 1}>
      <summary>The photos against the clocks, drawn</summary>
      <div ref={ref} className="stack">
        <p className="quiet small">Bars: somebody was clocked on. Uprights: photos. Flags: passed.</p>
        {width > 0 &&
          days.map(({ date, toDraw }) => (
            <figure key={date} className={styles.day}>
              <figcaption className="strong">{when.day(date)}</figcaption>
              <DrawingView drawing={drawCardDay(toDraw, Math.max(280, width))} />
            </figure>
          ))}
      </div>
    </details>
  )
}

function dayToDraw(
  proposal: CardProposal,
  photos: readonly PlacedPhoto[],
  { date, works }: CardProposal['days'][number],
  when: When,
): { readonly date: string; readonly toDraw: CardDayToDraw } | null {
  const rows = works.map(({ carId, target, spans, passed }) => {
    const car = carById(proposal, carId)
    const { serves } = fitToPlace({
      carId,
      target,
      shows: 'work',
      layerId: null,
      why: '',
      doesNotCount: null,
    })
    return {
      key: workKey(carId, target),
      name: `${car?.name ?? 'a car'}, ${workWords(car, serves)}`,
      spans,
      passed,
    }
  })
  const ofDay = photos.flatMap(({ taken, place }) => {
    if (taken === null || when.dateOf(taken) !== date) return []
    const key = place === null ? null : placeKey(place)
    // What was put on work of another day by hand has a place, but no row here.
    return key === null || rows.some((row) => row.key === key) ? [{ at: taken, row: key }] : []
  })
  return ofDay.length === 0 ? null : { date, toDraw: { photos: ofDay, rows, zone: when.zone } }
}
