import { useLayoutEffect, useRef } from 'react'
import type { LaidRow } from '../../domain/drawing/plan-layout.ts'
import { bayWords } from '../../domain/text/bay-words.ts'
import { useWhen } from '../parts/frame/when.tsx'
import styles from './drawing.module.css'
import { useShownPlan } from './plan-context.ts'
import { blockWords } from './plan-words.ts'
import type { HereState } from './use-here.ts'
import { NAMES } from './use-time-view.ts'

/** A target is never smaller than this (WCAG 2.2, 2.5.8). */
const LEAST = 24

/**
 * The one button of the drawing. It stands over the block that has the focus and is made anew for each, so that its words
 * are read out.
 */
export function HereButton({ here }: { readonly here: HereState }) {
  const { names } = useShownPlan()
  const when = useWhen()
  const { laid, row, takesFocus } = here
  const key = laid?.block.key ?? row?.row.key
  const words = laid === undefined ? rowWords(row) : blockWords(laid.block, names, when)
  const box = laid !== undefined ? laid : { x: 0, y: row?.y ?? 0, width: NAMES - 4, height: row?.height ?? 0 }
  return (
    <Focusable
      key={key}
      blockKey={key}
      words={words}
      takesFocus={takesFocus}
      onKeyDown={here.onKeyDown}
      onFocus={here.onFocus}
      onClick={here.onClick}
      style={{
        left: box.x,
        top: box.y,
        width: Math.max(LEAST, box.width),
        height: Math.max(LEAST, box.height),
      }}
    />
  )
}

function rowWords(laid: LaidRow | undefined): string {
  if (laid === undefined) return ''
  const count = laid.blocks.length
  return `${rowName(laid.row)}, ${count === 0 ? 'nothing planned' : `${count} on the plan`}`
}

function rowName(row: LaidRow['row']): string {
  switch (row.kind) {
    case 'bay':
      return bayWords(row.bay.name)
    case 'person':
      return row.person.name
    case 'finish':
      return 'what is promised'
  }
}

function Focusable({
  blockKey,
  words,
  takesFocus,
  ...rest
}: {
  readonly blockKey: string | undefined
  readonly words: string
  /** Asked once it is in the page: the focus follows the arrow keys. */
  readonly takesFocus: () => boolean
} & Pick<React.ComponentProps<'button'>, 'onKeyDown' | 'onFocus' | 'onClick' | 'style'>) {
  const ref = useRef<HTMLButtonElement>(null)
  useLayoutEffect(() => {
    if (takesFocus()) ref.current?.focus({ preventScroll: true })
  }, [takesFocus])
  return (
    <button
      ref={ref}
      type="button"
      className={styles.here}
      data-key={blockKey}
      aria-label={words}
      {...rest}
    />
  )
}
