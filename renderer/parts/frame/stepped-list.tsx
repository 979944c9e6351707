import { type ReactNode, useState } from 'react'
import { WordButton } from '../form/button.tsx'
import { LongList } from './long-list.tsx'

/** A list of ten years: its first lines, and as many again each time that more are asked for. */
export function SteppedList<Item>({
  items,
  step,
  page,
  title,
  className,
  children,
}: {
  readonly items: readonly Item[]
  readonly step: number
  readonly page?: number | undefined
  /** What the lines are, for who does not see where the button stands. */
  readonly title: string
  readonly className?: string | undefined
  readonly children: (item: Item) => ReactNode
}) {
  const [most, setMost] = useState(step)
  const left = items.length - most
  return (
    <>
      <LongList items={left > 0 ? items.slice(0, most) : items} page={page} className={className}>
        {children}
      </LongList>
      {left > 0 && (
        <WordButton onClick={() => setMost(most + step)}>
          {left > step ? `show ${step} more of ${left}` : `show ${left} more`}
          <span className="hidden-word">: {title}</span>
        </WordButton>
      )}
    </>
  )
}
