import { type ComponentType, lazy, Suspense } from 'react'

/** Code that the first screen does without. */
const notFetched: (() => Promise<unknown>)[] = []

/**
 * A part whose code is fetched when it is first shown, or before that by {@link takeNotFetched}; nothing stands in its place
 * until then.
 */
export function onDemand<Props extends object>(
  load: () => Promise<ComponentType<Props>>,
): ComponentType<Props> {
  notFetched.push(load)
  const Part = lazy(async () => ({ default: await load() }))
  return (props) => (
    <Suspense>
      <Part {...props} />
    </Suspense>
  )
}

/** What fetches the code of each part that is shown on demand. */
export const takeNotFetched = (): readonly (() => Promise<unknown>)[] => notFetched.splice(0)
