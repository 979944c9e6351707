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
  page,
  className,
  children,
}: {
  readonly items: readonly Item[]
  /** So many lines at once, where they are tall. */
  readonly page?: number | undefined
  readonly className?: string | undefined
  readonly children: (item: Item) => ReactNode
}) {
  return (
    <ul className={className}>
      <PageByPage items={items} page={page}>
        {children}
      </PageByPage>
    </ul>
  )
}

/** The same for what is no list: groups of lines, so many of them at once. */
export function PageByPage<Item>({
  items,
  page = PAGE,
  children,
}: {
  readonly items: readonly Item[]
  readonly page?: number | undefined
  readonly children: (item: Item) => ReactNode
}) {
  const pages = useMemo(
    () =>
      Array.from({ length: Math.ceil(items.length / page) }, (_, index) =>
        items.slice(index * page, (index + 1) * page),
      ),
    [items, page],
  )
  const shown = useGrowing(pages.length)
  return pages
    .slice(0, shown)
    .map((each, index) => <Page key={index} items={each} line={children as (item: unknown) => ReactNode} />)
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
