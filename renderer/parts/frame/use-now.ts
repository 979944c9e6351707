import { useEffect, useState } from 'react'
import type { Moment } from '../../../domain/car.ts'
import { useActor } from '../sign/actor.tsx'

/** The host's clock, as near as this device knows it, ticking. */
export function useNow(everyMs = 15_000): Moment {
  const { hostNow } = useActor()
  const [now, setNow] = useState(hostNow)
  useEffect(() => {
    const timer = window.setInterval(() => setNow(hostNow()), everyMs)
    return () => window.clearInterval(timer)
  }, [everyMs, hostNow])
  return now
}
