import { useCallback, useRef, useState, type KeyboardEvent } from 'react'
import type { LaidBlock, LaidRow } from '../../domain/drawing/plan-layout.ts'
import { xOf } from '../../domain/drawing/plan-scale.ts'
import { blockAt, findBlock, type Here, keyAt, nearestBlock, type Step, stepFrom } from './find-block.ts'
import { HEAD } from './time-head.tsx'
import type { Carry } from './use-carry.ts'
import { NAMES, type TimeView } from './use-time-view.ts'

export interface HereState {
  readonly at: Here | null
  readonly row: LaidRow | undefined
  readonly laid: LaidBlock | undefined
  readonly onKeyDown: (event: KeyboardEvent) => void
  readonly onFocus: () => void
  readonly onClick: () => void
  readonly takesFocus: () => boolean
  /** The mouse has taken hold of this block. */
  readonly put: (key: string) => void
}

const STEPS: Readonly<Record<string, Step>> = {
  ArrowLeft: 'left',
  ArrowRight: 'right',
  ArrowUp: 'up',
  ArrowDown: 'down',
  Home: 'first',
  End: 'last',
}

/** Where the focus stands in the drawing, and what its keys do. */
export function useHere({
  rows,
  time,
  now,
  carry,
  canChange,
  onChoose,
}: {
  readonly rows: readonly LaidRow[]
  readonly time: TimeView
  readonly now: number
  readonly carry: Carry
  readonly canChange: boolean
  readonly onChoose: (key: string | null) => void
}): HereState {
  const [key, setKey] = useState<string | null>(null)
  const wants = useRef(false)
  const at = (key === null ? null : findBlock(rows, key)) ?? firstPlace(rows, xOf(time.scale, now))
  const laid = at === null ? undefined : blockAt(rows, at)
  const takesFocus = useCallback(() => {
    const isWanted = wants.current
    wants.current = false
    return isWanted
  }, [])

  const go = (next: Here) => {
    wants.current = true
    setKey(keyAt(rows, next))
    const target = rows[next.row]
    if (target !== undefined) bringIntoSight(time, target, blockAt(rows, next))
  }
  const onKeyDown = (event: KeyboardEvent) => {
    const isDone = carry.picked === null ? freeKey(event) : carriedKey(event, carry)
    if (isDone) event.preventDefault()
  }
  const freeKey = (event: KeyboardEvent): boolean => {
    const step = STEPS[event.key]
    if (step !== undefined && at !== null) go(stepFrom(rows, at, step))
    else if (event.key === ' ' && laid?.block.kind === 'stay' && canChange) {
      carry.take(laid.block.key, laid.block.stay)
    } else if (event.key === '+' || event.key === '=') time.step('closer')
    else if (event.key === '-') time.step('wider')
    else if (event.key === '0') time.goTo(now)
    else if (event.key === 'Escape') onChoose(null)
    else return false
    // A change of the zoom draws the button anew: the focus stays on it.
    wants.current = true
    return true
  }

  return {
    at,
    laid,
    row: at === null ? undefined : rows[at.row],
    takesFocus,
    onKeyDown,
    onFocus: () => at !== null && setKey(keyAt(rows, at)),
    onClick: () => at !== null && onChoose(keyAt(rows, at)),
    put: (next) => {
      wants.current = true
      setKey(next)
    },
  }
}

function carriedKey(event: KeyboardEvent, carry: Carry): boolean {
  const days = event.shiftKey ? 7 : 1
  switch (event.key) {
    case 'ArrowLeft':
      carry.moveOn({ days: -days, bays: 0 })
      return true
    case 'ArrowRight':
      carry.moveOn({ days, bays: 0 })
      return true
    case 'ArrowUp':
      carry.moveOn({ days: 0, bays: -1 })
      return true
    case 'ArrowDown':
      carry.moveOn({ days: 0, bays: 1 })
      return true
    case 'Enter':
      carry.drop()
      return true
    case 'Escape':
      carry.cancel()
      return true
    default:
      // Space would click, and Tab would leave the stay in the air.
      return event.key === ' ' || event.key === 'Tab'
  }
}

/** The first bay, at what is in it now. */
function firstPlace(rows: readonly LaidRow[], x: number): Here | null {
  const row = rows.findIndex((each) => each.blocks.length > 0)
  const found = rows[row]
  return found === undefined
    ? rows.length > 0
      ? { row: 0, block: -1 }
      : null
    : { row, block: nearestBlock(found.blocks, x) }
}

/** Scrolls no more than it takes: the names and the head cover the edges. */
function bringIntoSight({ scroller }: TimeView, row: LaidRow, laid: LaidBlock | undefined): void {
  const element = scroller.current
  if (element === null) return
  const { scrollLeft, scrollTop, clientWidth, clientHeight } = element
  const top = laid?.y ?? row.y
  const bottom = top + (laid?.height ?? row.height)
  const seenBottom = scrollTop + clientHeight - HEAD
  if (top < scrollTop + 4) element.scrollTop = Math.max(0, top - 8)
  else if (bottom > seenBottom - 4) element.scrollTop = bottom - clientHeight + HEAD + 16
  if (laid === undefined) return
  const seenRight = scrollLeft + clientWidth - NAMES
  const right = laid.x + Math.min(laid.width, 200)
  if (laid.x < scrollLeft) element.scrollLeft = laid.x - 40
  else if (right > seenRight) element.scrollLeft = Math.min(laid.x - 40, right - clientWidth + NAMES + 40)
}
