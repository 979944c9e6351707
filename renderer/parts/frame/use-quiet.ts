import { useEffect, useState } from 'react'

/** The value as it is once it has not changed for a moment; what it began with until then. */
export function useQuiet<Value>(value: Value, quietMs: number): Value {
  const [quiet, setQuiet] = useState(value)
  useEffect(() => {
    const timer = window.setTimeout(() => setQuiet(value), quietMs)
    return () => window.clearTimeout(timer)
  }, [value, quietMs])
  return quiet
}
