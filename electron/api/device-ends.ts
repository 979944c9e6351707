import type { DeviceId } from '../../domain/ids.ts'

/** Ends what goes on for a device at the moment that it is shut out. */
export interface DeviceEnds {
  /** Aborted when the device is shut out. */
  readonly signalOf: (id: DeviceId) => AbortSignal
  readonly end: (id: DeviceId) => void
}

/** One signal a device, kept for the run of the host: a workshop has a few dozen. */
export function createDeviceEnds(): DeviceEnds {
  const ends = new Map<DeviceId, AbortController>()
  const of = (id: DeviceId): AbortController => {
    const known = ends.get(id) ?? new AbortController()
    ends.set(id, known)
    return known
  }
  return { signalOf: (id) => of(id).signal, end: (id) => of(id).abort() }
}

/** The same answer, which breaks off when the device is shut out: a car's file may go out for minutes. */
export function endsWithDevice(answer: Response, ended: AbortSignal): Response {
  if (answer.body === null) return answer
  return new Response(answer.body.pipeThrough(new TransformStream(), { signal: ended }), answer)
}
