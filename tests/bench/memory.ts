import process from 'node:process'

/** Resident memory of this process with its workers. */
export const residentMb = (): number => Math.round(process.memoryUsage.rss() / 1_000_000)

/** Looks every 20 ms, which a garbage collection outlasts. */
export function watchMemory(): { readonly stop: () => number } {
  let peak = residentMb()
  const timer = setInterval(() => {
    peak = Math.max(peak, residentMb())
  }, 20)
  return {
    stop: () => {
      clearInterval(timer)
      return Math.max(peak, residentMb())
    },
  }
}
