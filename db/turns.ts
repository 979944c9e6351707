/** Runs the actions that it is given one after the other, whatever becomes of each. */
export function createTurns(): <T>(action: () => Promise<T>) => Promise<T> {
  let last: Promise<unknown> = Promise.resolve()
  return (action) => {
    const turn = last.then(action)
    last = turn.catch(() => undefined)
    return turn
  }
}
