import { useState } from 'react'
import type { CarId } from '../../domain/ids.ts'
import type { Refusal } from '../../domain/refusal.ts'
import type { Outcome } from '../outbox/outcome.ts'
import { outbox } from '../outbox/outbox.ts'
import { useActor } from '../parts/sign/actor.tsx'
import { attachCommands, correctionNotes, type Attaching, type AttachCommand } from './attach-commands.ts'
import type { PlacedPhoto } from './places.ts'

export interface Attached {
  readonly carIds: readonly CarId[]
  readonly done: number
  /** On this device until the host can be reached. */
  readonly kept: number
  readonly refused: readonly { readonly sha256: string; readonly refusal: Refusal }[]
}

export interface AttachState {
  /** How many of how many have been answered; null when nothing is being attached. */
  readonly busy: { readonly done: number; readonly count: number } | null
  readonly attached: Attached | null
  /** Photos that are attached, or kept on this device to be. */
  readonly gone: ReadonlySet<string>
  readonly attach: (photos: readonly PlacedPhoto[], correction: Attaching['correction']) => Promise<void>
}

/** Attaches photos by the usual commands: what the host cannot take now is kept on this device and sent later. */
export function useAttach(): AttachState {
  const { askPerson } = useActor()
  const [busy, setBusy] = useState<AttachState['busy']>(null)
  const [attached, setAttached] = useState<Attached | null>(null)
  const [gone, setGone] = useState<ReadonlySet<string>>(new Set())

  const attach: AttachState['attach'] = async (photos, correction) => {
    const by = await askPerson()
    if (by === null) return
    const attaching = { by, made: new Date().toISOString(), correction }
    const commands = attachCommands(photos, attaching)
    setBusy({ done: 0, count: commands.length })
    const sent = await Promise.all(
      commands.map(async (command) => {
        const outcome = await outbox.send(command)
        setBusy((before) => before && { ...before, done: before.done + 1 })
        return { command, outcome }
      }),
    )
    const taken = sent.filter(({ outcome }) => outcome.is === 'done' || outcome.is === 'kept')
    for (const note of correctionNotes(
      taken.map(({ command }) => command),
      attaching,
    ))
      await outbox.send(note)
    setGone((before) => before.union(new Set(taken.map(({ command }) => command.payload.sha256))))
    setAttached(toAttached(sent))
    // What became of them is said at the top, far from the button after 200 photos.
    window.scrollTo({ top: 0 })
    setBusy(null)
  }
  return { busy, attached, gone, attach }
}

function toAttached(
  sent: readonly { readonly command: AttachCommand; readonly outcome: Outcome }[],
): Attached {
  const count = (is: Outcome['is']) => sent.filter(({ outcome }) => outcome.is === is).length
  return {
    carIds: [
      ...new Set(
        sent.flatMap(({ command, outcome }) =>
          outcome.is === 'refused' || command.carId === null ? [] : [command.carId],
        ),
      ),
    ],
    done: count('done'),
    kept: count('kept'),
    refused: sent.flatMap(({ command, outcome }) =>
      outcome.is === 'refused' ? [{ sha256: command.payload.sha256, refusal: outcome.refusal }] : [],
    ),
  }
}
