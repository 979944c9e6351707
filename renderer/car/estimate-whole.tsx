import { useMemo } from 'react'
import { drawHoursBand } from '../../domain/drawing/hours-band-drawing.ts'
import { rangeWords } from '../../domain/text/likely-words.ts'
import { hours, moreOrLess } from '../../domain/text/words.ts'
import type { EstimateView, WholeEstimateView } from '../../domain/views/estimate-shapes.ts'
import type { CarView } from '../../domain/views/view-shapes.ts'
import { useActor } from '../parts/sign/actor.tsx'
import { Button } from '../parts/form/button.tsx'
import { DrawingView } from '../parts/drawing/drawing.tsx'
import { saveFile } from '../parts/frame/save-file.ts'
import { useWidth } from '../parts/frame/use-width.ts'
import styles from './estimate.module.css'

/** The whole car in one sentence, its band, and what may be done with the estimate. */
export function EstimateWhole({
  view,
  estimate: { whole },
  onAdd,
}: {
  readonly view: CarView
  readonly estimate: EstimateView
  readonly onAdd: () => void
}) {
  return (
    <section className="stack-tight">
      <p className={styles.whole}>{whole.words}</p>
      <WholeBand whole={whole} />
      <p className="small quiet">
        {agreedWords(whole)} {whole.rests.join(' ')}
      </p>
      <div className="button-row">
        <Button onClick={onAdd}>Add a repair</Button>
        <PrintButtons carId={view.header.carId} />
      </div>
    </section>
  )
}

function WholeBand({ whole: { agreed, waiting, band, first } }: { readonly whole: WholeEstimateView }) {
  const { ref, width } = useWidth<HTMLDivElement>()
  const drawing = useMemo(() => {
    const scale = 1.04 * Math.max(agreed, band?.p80 ?? 0, first?.p80 ?? 0)
    return drawHoursBand({ agreed, isAccepted: waiting === 0, band, first, took: null }, { width, scale })
  }, [agreed, waiting, band, first, width])
  return (
    <div ref={ref} className={styles.wholeBand}>
      {width > 0 && <DrawingView drawing={drawing} />}
    </div>
  )
}

function agreedWords({ agreed, waiting, asked, first }: WholeEstimateView): string {
  const open = waiting === 0 ? 'all of it accepted' : `${hours(waiting)} of it not accepted yet`
  const more = asked === 0 ? '' : `; variations of ${moreOrLess(asked, hours)} wait for an answer`
  return [
    `Estimated at ${hours(agreed)}, ${open}${more}.`,
    ...(first === null ? [] : [`Before anything was opened: ${rangeWords(first)}.`]),
  ].join(' ')
}

/** The host gives it to a signed-in manager only, so that the code is asked for first. */
function PrintButtons({ carId }: { readonly carId: string }) {
  const { askManager } = useActor()
  const save = (as: 'pdf' | 'json') =>
    void askManager().then((manager) => manager !== null && saveFile(`/estimate/${carId}.${as}`))
  return (
    <div className="button-row">
      <Button onClick={() => save('pdf')}>Print it for the owner</Button>
      <Button onClick={() => save('json')}>Save it as data (JSON)</Button>
    </div>
  )
}
