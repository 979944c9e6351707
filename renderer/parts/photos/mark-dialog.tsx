import { useId, useState } from 'react'
import { MARK_LINE } from '../../../domain/photo-marks/draw-marks.ts'
import { isFull, type MarkTool } from '../../../domain/photo-marks/edit-marks.ts'
import { marksWords } from '../../../domain/photo-marks/marks-words.ts'
import { MOST_MARKS, type PhotoMark, type PhotoMarks } from '../../../domain/photo-marks/photo-marks.ts'
import type { Refusal } from '../../../domain/refusal.ts'
import { Button } from '../form/button.tsx'
import { Dialog } from '../form/dialog.tsx'
import { ChoiceRow } from '../form/inputs.tsx'
import { MarksOverlay } from './marks-overlay.tsx'
import { RefusalNote } from '../form/notice.tsx'
import { useMarkDrawing } from './use-mark-drawing.ts'
import styles from './marks.module.css'

const TOOLS: readonly { readonly value: MarkTool; readonly words: string }[] = [
  { value: 'arrow', words: 'arrow' },
  { value: 'circle', words: 'circle' },
  { value: 'line', words: 'free line' },
]

/** Arrows, circles and lines on a photo, which itself is not touched. */
export function MarkDialog({
  src,
  words,
  marks: given,
  refusal = null,
  isBusy = false,
  onSave,
  onClose,
}: {
  readonly src: string
  /** What the photo shows. */
  readonly words: string
  readonly marks: PhotoMarks
  readonly refusal?: Refusal | null
  readonly isBusy?: boolean
  readonly onSave: (marks: PhotoMarks) => void
  readonly onClose: () => void
}) {
  const drawing = useMarkDrawing(given)
  const [size, setSize] = useState<{ readonly width: number; readonly height: number } | null>(null)
  const [isUnseen, setIsUnseen] = useState(false)
  const { marks, undo } = drawing
  return (
    <Dialog title="Draw on the photo" isOpen onClose={onClose} size="wide">
      <div className={styles.drawing}>
        <ChoiceRow
          label="Draw with a finger, a pen or the mouse"
          choices={TOOLS}
          value={drawing.tool}
          onChange={drawing.setTool}
        />
        {isUnseen && <p role="alert">This device cannot show the photo yet; draw on it once it is sent.</p>}
        <div className={styles.sheet} data-testid="mark-sheet" {...drawing.ofSheet}>
          <img
            src={src}
            alt={[words, marksWords(marks)].filter(Boolean).join(', ')}
            draggable={false}
            onLoad={({ currentTarget: { naturalWidth: width, naturalHeight: height } }) =>
              setSize({ width, height })
            }
            onError={() => setIsUnseen(true)}
          />
          {size !== null && (
            <MarksOverlay marks={drawing.shown} picture={{ ...size, line: MARK_LINE.large }} fit="contain">
              <ChosenFrame mark={marks[drawing.chosen ?? -1]} {...size} />
            </MarksOverlay>
          )}
        </div>
        <MarkList drawing={drawing} />
        <RefusalNote refusal={refusal} />
        <div className="spread">
          <p className="small quiet">The photo itself stays as it is; the marks are kept beside it.</p>
          <div className="button-row">
            <Button onClick={() => undo?.()} aria-disabled={undo === null}>
              Undo
            </Button>
            <Button
              kind="main"
              aria-busy={isBusy}
              onClick={() => (marks === given ? onClose() : onSave(marks))}
            >
              Keep the marks
            </Button>
          </div>
        </div>
      </div>
    </Dialog>
  )
}

type Drawing = ReturnType<typeof useMarkDrawing>

/** Every mark by name: chosen, it is moved and sized by the arrow keys and taken off. Nothing here moves the photo above it. */
function MarkList({ drawing }: { readonly drawing: Drawing }) {
  const id = useId()
  const { marks, chosen } = drawing
  const isAtMost = isFull(marks)
  const add = (kind: 'arrow' | 'circle') => () => {
    if (!isAtMost) drawing.addInMiddle(kind)
  }
  return (
    <div className={styles.marking}>
      <div className={styles.list} role="group" aria-label="Marks">
        {marks.length === 0 && <span className="quiet">No marks yet.</span>}
        {marks.map((_, index) => (
          <button
            key={index}
            type="button"
            className={styles.mark}
            aria-pressed={index === chosen}
            aria-describedby={id}
            onClick={() => drawing.setChosen(index)}
            onFocus={() => drawing.setChosen(index)}
            onKeyDown={drawing.ofMark(index)}
          >
            {nameOf(marks, index)}
          </button>
        ))}
      </div>
      <div className="button-row">
        <Button aria-disabled={isAtMost} onClick={add('arrow')}>
          Add an arrow
        </Button>
        <Button aria-disabled={isAtMost} onClick={add('circle')}>
          Add a circle
        </Button>
        <Button
          aria-disabled={chosen === null}
          onClick={() => {
            if (chosen !== null) drawing.takeOff(chosen)
          }}
        >
          Take off
        </Button>
      </div>
      <p id={id} className="small quiet">
        {isAtMost ? `${MOST_MARKS} marks are as many as a photo can have. ` : ''}
        The arrow keys move a chosen mark, with Shift its end; Delete takes it off.
      </p>
    </div>
  )
}

function ChosenFrame({
  mark,
  width,
  height,
}: {
  readonly mark: PhotoMark | undefined
  readonly width: number
  readonly height: number
}) {
  if (mark === undefined) return null
  const points = mark.kind === 'line' ? mark.points : [mark.from, mark.to]
  const [xs, ys] = [points.map(({ x }) => x * width), points.map(({ y }) => y * height)]
  const margin = 0.02 * Math.max(width, height)
  const [left, top] = [Math.min(...xs) - margin, Math.min(...ys) - margin]
  return (
    <rect
      className={styles.chosen}
      x={left}
      y={top}
      width={Math.max(...xs) + margin - left}
      height={Math.max(...ys) + margin - top}
    />
  )
}

/** 'circle 2' */
function nameOf(marks: PhotoMarks, index: number): string {
  const kind = marks[index]?.kind ?? 'arrow'
  return `${kind} ${marks.slice(0, index + 1).filter((mark) => mark.kind === kind).length}`
}
