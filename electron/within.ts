/** Rejects when it takes longer. */
export function within<T>(mostMs: number, work: Promise<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    const late = setTimeout(() => reject(new Error(`It took more than ${mostMs / 1000} s.`)), mostMs)
    work.then(resolve, reject).finally(() => clearTimeout(late))
  })
}
