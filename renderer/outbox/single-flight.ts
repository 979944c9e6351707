/** One run at a time; a call during a run gets a run of its own after it, shared with the other callers that wait. */
export function singleFlight<Result>(run: () => Promise<Result>): () => Promise<Result> {
  let running: Promise<Result> | null = null
  let next: Promise<Result> | null = null
  const start = () => {
    running = run().finally(() => {
      running = null
    })
    return running
  }
  const startAfter = () => {
    next = null
    return start()
  }
  return () => {
    if (running === null) return start()
    // A run that failed told its own callers; the next one starts all the same.
    next ??= running.then(startAfter, startAfter)
    return next
  }
}
