import { useId, useState } from 'react'
import { MARK_LINE } from '../../domain/photo-marks/draw-marks.ts'
import { isFull, type MarkTool } from '../../domain/photo-marks/edit-marks.ts'
import { marksWords } from '../../domain/photo-marks/marks-words.ts'
import { MOST_MARKS, type PhotoMark, type PhotoMarks } from '../../domain/photo-marks/photo-marks.ts'
import type { Refusal } from '../../domain/refusal.ts'
import { Button } from './button.tsx'
import { Dialog } from './dialog.tsx'
import { ChoiceRow } from './fields.tsx'
import { MarksOverlay } from './marks-overlay.tsx'
import { RefusalNote } from './notice.tsx'
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
        <div className="button-row end">
          <Button onClick={() => undo?.()} aria-disabled={undo === null}>
            Undo
          </Button>
          {marks.length > 0 && <Button onClick={drawing.clear}>Take all off</Button>}
          <Button
            kind="main"
            aria-busy={isBusy}
            onClick={() => (marks === given ? onClose() : onSave(marks))}
          >
            Keep the marks
          </Button>
        </div>
        <p className="small quiet">The photo itself stays as it is; the marks are kept beside it.</p>
      </div>
    </Dialog>
  )
}

type Drawing = ReturnType<typeof useMarkDrawing>

/** Every mark by name: chosen, it is moved and sized by the arrow keys and taken off. */
function MarkList({ drawing }: { readonly drawing: Drawing }) {
  const id = useId()
  const { marks, chosen } = drawing
  return (
    <div className="stack-tight">
      <div className={styles.list} role="group" aria-label="Marks">
        {marks.map((_, index) => (
          <button
            key={index}
            type="button"
            className={styles.mark}
            aria-pressed={index === chosen}
            aria-describedby={id}
            onClick={() => drawing.setChosen(index === chosen ? null : index)}
            onFocus={() => drawing.setChosen(index)}
            onKeyDown={drawing.ofMark(index)}
          >
            {nameOf(marks, index)}
          </button>
        ))}
        {chosen !== null && marks[chosen] !== undefined && (
          <Button onClick={() => drawing.takeOff(chosen)}>Take {nameOf(marks, chosen)} off</Button>
        )}
        {isFull(marks) ? (
          <span className="small">{MOST_MARKS} marks are as many as a photo can have.</span>
        ) : (
          <>
            <Button onClick={() => drawing.addInMiddle('arrow')}>Add an arrow</Button>
            <Button onClick={() => drawing.addInMiddle('circle')}>Add a circle</Button>
          </>
        )}
      </div>
      {marks.length > 0 && (
        <p id={id} className="small quiet">
          With a mark chosen, the arrow keys move it; with Shift they change its size. Delete takes it off.
        </p>
      )}
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
