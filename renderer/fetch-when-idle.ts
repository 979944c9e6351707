import { queryClient } from './client.ts'
import { takeNotFetched } from './parts/frame/on-demand.tsx'
import { whenIdle } from './parts/frame/when-idle.ts'
import { router } from './routes.tsx'

/**
 * Fetches the code of sheets and menus, then of every screen in the order of the list, so that moves wait for none and each can
 * be opened without a connection. One at a time, after what the screen reads and while nothing else is to be done; what fails is
 * fetched when it is shown.
 */
export async function fetchWhenIdle(): Promise<void> {
  const screens = Object.values(router.routesById).map((route) => async () => router.loadRouteChunk(route))
  await fetchEach([...takeNotFetched(), ...screens])
  // Screens bring parts of their own.
  await fetchEach(takeNotFetched())
}

async function fetchEach(loads: readonly (() => Promise<unknown>)[]): Promise<void> {
  for (const load of loads) {
    do await idle()
    while (queryClient.isFetching() > 0)
    await load().catch(() => undefined)
  }
}

const idle = (): Promise<void> => new Promise((resolve) => void whenIdle(resolve))
