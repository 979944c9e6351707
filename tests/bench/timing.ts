import process from 'node:process'

/** How long one call took, milliseconds. `cpu` is this thread's processor time, which a busy machine does not stretch. */
export interface Timed {
  readonly wall: number
  readonly cpu: number
}

export interface Spread {
  readonly median: number
  readonly p95: number
  readonly cpuMedian: number
  readonly cpuP95: number
}

export async function timed(call: () => unknown): Promise<Timed> {
  const cpuBegun = process.threadCpuUsage()
  const begun = performance.now()
  await call()
  const wall = performance.now() - begun
  const { user, system } = process.threadCpuUsage(cpuBegun)
  return { wall, cpu: (user + system) / 1_000 }
}

/** The same of a call that waits for nothing, with what it answers. */
export function timedNow<T>(call: () => T): { readonly result: T; readonly time: Timed } {
  const cpuBegun = process.threadCpuUsage()
  const begun = performance.now()
  const result = call()
  const wall = performance.now() - begun
  const { user, system } = process.threadCpuUsage(cpuBegun)
  return { result, time: { wall, cpu: (user + system) / 1_000 } }
}

export function spreadOf(times: readonly Timed[]): Spread {
  const walls = times.map(({ wall }) => wall)
  const cpus = times.map(({ cpu }) => cpu)
  return {
    median: quantile(walls, 0.5),
    p95: quantile(walls, 0.95),
    cpuMedian: quantile(cpus, 0.5),
    cpuP95: quantile(cpus, 0.95),
  }
}

/** The smallest value that so large a share of them does not exceed; 0 of none. */
export function quantile(values: readonly number[], share: number): number {
  const sorted = values.toSorted((a, b) => a - b)
  return rounded(sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? 0)
}

export const rounded = (value: number, decimals = 2): number => Number(value.toFixed(decimals))
