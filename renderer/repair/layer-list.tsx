import { Link } from '@tanstack/react-router'
import type { LayerId } from '../../domain/ids.ts'
import { mm } from '../../domain/text/words.ts'
import type { SectionLayer } from '../../domain/views/shared-views.ts'
import { Menu } from '../parts/form/menu.tsx'
import type { MenuEntry } from '../parts/form/open-menu.tsx'
import { RefusalNote } from '../parts/form/notice.tsx'
import { useCommand, type CommandState } from '../parts/form/use-command.ts'
import { gatePhoto } from '../parts/photos/photo-aim.ts'
import { useRepair } from './repair-context.ts'
import styles from './repair.module.css'

/** The layers from the innermost outwards, with what may be said of each. */
export function LayerList() {
  const { view } = useRepair()
  const command = useCommand()
  return (
    <section>
      <h3>Layers, innermost first</h3>
      <ul className="lines">
        {view.section.layers.map((layer) => (
          <li key={layer.id} className={styles.pair}>
            <span>
              <span className="strong">{layer.name}</span>, {mm(layer.thicknessMm)}
              {layer.loadBearing && ', load-bearing'}
              <br />
              <span className="quiet small">{stateWords(layer)}</span>
            </span>
            <LayerMenu layer={layer} command={command} />
          </li>
        ))}
      </ul>
      <RefusalNote refusal={command.refusal} />
      <CoverLines />
    </section>
  )
}

/** What must come off before it, and what lies behind it. */
function CoverLines() {
  const { view } = useRepair()
  if (view.covers.length === 0) return null
  return (
    <ul className={`lines ${styles.covers}`}>
      {view.covers.map(({ id, name, direction }) => (
        <li key={id} className={styles.pair}>
          <span className="quiet">{direction}</span>
          <Link
            to="/cars/$carId/repairs/$repairId"
            params={{ carId: view.car.carId, repairId: id }}
            className={styles.link}
          >
            {name}
          </Link>
        </li>
      ))}
    </ul>
  )
}

function LayerMenu({ layer, command }: { readonly layer: SectionLayer; readonly command: CommandState }) {
  const { view, open, photos } = useRepair()
  const mark = (what: 'repaired' | 'coated' | 'closed over') => () =>
    void command.send({
      kind: 'markLayers',
      carId: view.car.carId,
      payload: { repairId: view.repair.id, layerIds: [layer.id as LayerId], mark: what },
    })
  const gate = view.next?.gate ?? 'painted'
  const isOver = layer.state === 'closed over'
  const entries: readonly MenuEntry[] = [
    {
      id: 'photo',
      words: 'Take a photo of it',
      onChoose: () =>
        photos.take({ serves: [gatePhoto(view.repair.id, gate, 'layer', layer.id)], caption: '' }),
    },
    {
      id: 'grade',
      words: 'Grade and decide',
      onChoose: () => open({ kind: 'grade', layerId: layer.id as LayerId }),
      isDisabled: isOver,
    },
    { id: 'repaired', words: 'It is repaired', onChoose: mark('repaired'), isDisabled: isOver },
    { id: 'coated', words: 'It is coated', onChoose: mark('coated'), isDisabled: isOver },
    {
      id: 'closed',
      words: 'The next layer closes over it',
      onChoose: mark('closed over'),
      isDisabled: isOver || layer.closing,
    },
  ]
  return (
    <Menu
      className="word-button"
      label={
        <>
          say what was done<span className="hidden-word"> ({layer.name})</span>
        </>
      }
      entries={entries}
    />
  )
}

function stateWords({ grade, judgedBy, remainingMm, decision, state, photographed, closing }: SectionLayer) {
  return [
    ...(closing ? ['closing panel'] : []),
    grade === null ? 'not seen yet' : grade === 'not seen' ? `not seen (${judgedBy ?? ''})` : grade,
    ...(remainingMm === null ? [] : [`${mm(remainingMm)} left`]),
    ...(decision === null ? [] : [decision]),
    ...(state === 'not seen yet' || state === 'found' ? [] : [state]),
    photographed ? 'photographed' : 'no photo yet',
  ].join(', ')
}
