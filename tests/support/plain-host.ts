/** What every host of a test is started with: a workshop of its own, the real day, any free port and no window. */
export const PLAIN_HOST = { demo: false, today: undefined, port: 0, window: false } as const
