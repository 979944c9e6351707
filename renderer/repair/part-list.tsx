import { PART_FOLLOWS, type PartState } from '../../domain/facts/work-facts.ts'
import type { RepairView } from '../../domain/views/view-shapes.ts'
import { Button } from '../parts/form/button.tsx'
import { Menu } from '../parts/form/menu.tsx'
import { useWhen, type When } from '../parts/frame/when.tsx'
import { useRepair } from './repair-context.ts'
import styles from './repair.module.css'

type PartView = RepairView['parts'][number]

/** Parts that gates of this repair wait for, and where each of them is. */
export function PartList() {
  const { view, open } = useRepair()
  const when = useWhen()
  return (
    <section className="stack-tight">
      <div className="spread">
        <h3>Parts{view.parts.length > 0 && ` ${view.parts.length}`}</h3>
        <Button onClick={() => open({ kind: 'need part' })}>A part is needed</Button>
      </div>
      {view.parts.length === 0 && <p className="quiet">No gate of this repair waits for a part.</p>}
      <ul className="lines">
        {view.parts.map((part) => (
          <li key={part.id} className={styles.pair}>
            <span>
              {part.name} <span className="quiet">for {part.gate}</span>
              <br />
              <span className={part.state === 'rejected' ? 'small is-accent' : 'small quiet'}>
                {stateWords(part, when)}
              </span>
            </span>
            <Menu
              className="word-button"
              label={
                <>
                  move on<span className="hidden-word"> {part.name}</span>
                </>
              }
              entries={PART_FOLLOWS[part.state].map((to) => ({
                id: to,
                words: MOVES[to],
                onChoose: () => open({ kind: 'move part', part, to }),
              }))}
            />
          </li>
        ))}
      </ul>
    </section>
  )
}

const stateWords = ({ state, expected, reason }: PartView, when: When): string =>
  [
    state,
    ...(state === 'ordered' && expected !== null ? [`expected ${when.day(expected)}`] : []),
    ...(reason === '' ? [] : [reason]),
  ].join(', ')

const MOVES: Readonly<Record<PartState, string>> = {
  needed: 'It is needed again',
  ordered: 'It is ordered, expected on…',
  received: 'It has come',
  checked: 'It is checked and right',
  rejected: 'It is wrong: reject it',
  fitted: 'It is fitted',
}
