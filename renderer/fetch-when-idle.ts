import { takeNotFetched } from './parts/on-demand.tsx'
import { router } from './routes.tsx'

/** A busy page is not waited for longer than this. */
const IDLE_WAIT_MS = 1_000

/**
 * Fetches the code of sheets and menus, then of every screen in the order of the list, so that moves wait for none and each can
 * be opened without a connection. One at a time, while nothing else is to be done; what fails is fetched when it is shown.
 */
export async function fetchWhenIdle(): Promise<void> {
  const screens = Object.values(router.routesById).map((route) => async () => router.loadRouteChunk(route))
  await fetchEach([...takeNotFetched(), ...screens])
  // Screens bring parts of their own.
  await fetchEach(takeNotFetched())
}

async function fetchEach(loads: readonly (() => Promise<unknown>)[]): Promise<void> {
  for (const load of loads) {
    await idle()
    await load().catch(() => undefined)
  }
}

/** Safari has no idle callback. */
const idle = (): Promise<unknown> =>
  new Promise((resolve) =>
    'requestIdleCallback' in window
      ? requestIdleCallback(resolve, { timeout: IDLE_WAIT_MS })
      : setTimeout(resolve, 1),
  )
