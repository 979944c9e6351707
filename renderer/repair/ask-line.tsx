import type { Gate } from '../../domain/gates.ts'
import type { LayerId } from '../../domain/ids.ts'
import { isPhotoAsk } from '../../domain/views/photo-ask.ts'
import type { AskView } from '../../domain/views/view-shapes.ts'
import { useSending } from '../parts/photos/use-sending.ts'
import { RefusalNote } from '../parts/form/notice.tsx'
import { askAim, photosOnTheirWay } from '../parts/photos/photo-aim.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { askDoing, photoWork } from './asks.ts'
import { useRepair } from './repair-context.ts'
import styles from './repair.module.css'

/** One thing that the gate asks for: what is there, or what to do; a tap does it. */
export function AskLine({ ask, gate }: { readonly ask: AskView; readonly gate: Gate }) {
  const { view, open, photos } = useRepair()
  const command = useCommand()
  const sending = useSending()
  const onTheirWay = isPhotoAsk(ask) ? photosOnTheirWay(photoWork(view), ask, sending) : 0
  const release = view.next?.holds.find((hold) => hold.subject === ask.key)?.released ?? null

  const act = () => {
    if (isPhotoAsk(ask)) return photos.take(askAim(photoWork(view), ask))
    if (ask.kind === 'layer repaired')
      return void command.send({
        kind: 'markLayers',
        carId: view.car.carId,
        payload: { repairId: view.repair.id, layerIds: [ask.layerId as LayerId], mark: 'repaired' },
      })
    const doing = askDoing(ask, gate)
    if (doing !== null) open(doing)
  }
  return (
    <li>
      <button type="button" className={styles.ask} onClick={act}>
        <span>{ask.words}</span>
        <AskStanding
          isMet={ask.met}
          have={release === null || ask.met ? haveWords(ask, onTheirWay) : 'released'}
          todo={TODO[ask.kind]}
        />
      </button>
      <RefusalNote refusal={command.refusal} />
    </li>
  )
}

/** What is there, and where that is not enough what to do. */
export function AskStanding({
  isMet,
  have,
  todo,
}: {
  readonly isMet: boolean
  readonly have: string
  readonly todo: string
}) {
  if (isMet) return <span className={`${styles.met} is-passed`}>{have}</span>
  return (
    <>
      <span className={styles.have}>{have}</span>
      <span className={`${styles.todo} is-accent`}>{todo}</span>
    </>
  )
}

const haveWords = ({ have }: AskView, onTheirWay: number): string =>
  onTheirWay === 0 ? have : `${have}, ${onTheirWay} on the way`

const TODO: Readonly<Record<AskView['kind'], string>> = {
  'photo before': 'take it',
  photo: 'take it',
  'layer photo': 'take it',
  'layer grade': 'grade it',
  'layer repaired': 'say so',
  safety: 'state it',
  review: 'review',
  drains: 'check',
  conditions: 'read',
  'fit-up': 'read',
  dimension: 'read',
  welds: 'count',
}
