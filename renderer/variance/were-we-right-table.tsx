import { drawShareBar } from '../../domain/drawing/share-bar-drawing.ts'
import type { AccuracyLine, TypeAccuracyLine, WithinView } from '../../domain/views/were-we-right-shapes.ts'
import { DrawingView } from '../parts/drawing/drawing.tsx'
import styles from './were-we-right.module.css'

type Line = AccuracyLine | TypeAccuracyLine

/** How often the figures held, by one thing; of types also how their hours are banded now. */
export function AccuracyTable({ title, lines }: { readonly title: string; readonly lines: readonly Line[] }) {
  const drawn = lines.filter(isDrawn)
  const few = lines.filter((line) => !isDrawn(line))
  return (
    <section className="stack-tight">
      <h2>{title}</h2>
      {drawn.length > 0 && (
        <ul className="lines">
          {drawn.map((line) => (
            <DrawnLine key={line.key} line={line} />
          ))}
        </ul>
      )}
      {few.length > 0 && (
        <>
          <h3>With fewer than {DRAWN_FROM} repairs to judge</h3>
          <ul className="lines">
            {few.map((line) => (
              <FewLine key={line.key} line={line} />
            ))}
          </ul>
        </>
      )}
    </section>
  )
}

/** A bar of fewer says nothing that two figures do not. */
const DRAWN_FROM = 4
const isDrawn = ({ jobs }: Line): boolean => jobs >= DRAWN_FROM

function DrawnLine({ line }: { readonly line: Line }) {
  return (
    <li className={styles.line}>
      <div>
        <p className="strong">{line.name}</p>
        <p className="small quiet">{line.jobs} judged</p>
      </div>
      {line.within80 !== null && <SmallShare within={line.within80} />}
      {line.within50 !== null && <SmallShare within={line.within50} />}
      <div className="small">
        {line.bias !== null && <p>{line.bias.words}.</p>}
        {'methodWords' in line && <p className="quiet">{line.methodWords}.</p>}
      </div>
    </li>
  )
}

function FewLine({ line }: { readonly line: Line }) {
  const { name, within50, within80, bias } = line
  return (
    <li className={styles.few}>
      <p className="strong">{name}</p>
      <p className={within80?.verdict === 'too low' ? 'small is-accent' : 'small'}>
        {within80 === null || within50 === null
          ? 'Nothing to judge.'
          : `At or under the 80 % figure ${heldOf(within80)}, the 50 % figure ${heldOf(within50)}.`}
      </p>
      <p className="small">
        {bias !== null && `${bias.words}. `}
        {'methodWords' in line && <span className="quiet">{line.methodWords}.</span>}
      </p>
    </li>
  )
}

const heldOf = ({ count, jobs }: WithinView): string => `${count} of ${jobs}`

function SmallShare({ within }: { readonly within: WithinView }) {
  return (
    <div className={styles.share}>
      <DrawingView drawing={drawShareBar(within, BAR_WIDTH)} />
      <p className={within.verdict === 'too low' ? 'small is-accent' : 'small'}>{within.words}.</p>
    </div>
  )
}

const BAR_WIDTH = 180
