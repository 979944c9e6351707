import { memo, type ReactNode, useEffect, useMemo, useState } from 'react'
import { whenIdle } from './when-idle.ts'

/** More lines than any screen shows at once; drawing so many takes less than two frames. */
const PAGE = 16

/**
 * A list that may have hundreds of lines: the first ones are drawn at once, the others page by page while nothing else is to be
 * done, so that all of them can be found and read out a moment later.
 */
export function LongList<Item>({
  items,
  className,
  children,
}: {
  readonly items: readonly Item[]
  readonly className?: string | undefined
  readonly children: (item: Item) => ReactNode
}) {
  const pages = useMemo(
    () =>
      Array.from({ length: Math.ceil(items.length / PAGE) }, (_, page) =>
        items.slice(page * PAGE, (page + 1) * PAGE),
      ),
    [items],
  )
  const shown = useGrowing(pages.length)
  return (
    <ul className={className}>
      {pages.slice(0, shown).map((page, index) => (
        <Page key={index} items={page} line={children as (item: unknown) => ReactNode} />
      ))}
    </ul>
  )
}

const Page = memo(function Page({
  items,
  line,
}: {
  readonly items: readonly unknown[]
  readonly line: (item: unknown) => ReactNode
}) {
  return items.map(line)
})

function useGrowing(count: number): number {
  const [shown, setShown] = useState(1)
  useEffect(() => {
    if (shown >= count) return
    return whenIdle(() => setShown(shown + 1))
  }, [shown, count])
  return shown
}
