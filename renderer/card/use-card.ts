import type { CardProposal } from '../../domain/import/photo-proposal.ts'
import { useEffect, useRef, useState } from 'react'
import type { CarId, PersonId } from '../../domain/ids.ts'
import type { Refusal } from '../../domain/refusal.ts'
import { client, isHostAway } from '../client.ts'
import { answered } from '../parts/frame/answered.ts'
import { sortFiles, type LeftOut } from './card-files.ts'
import type { Ask, Reference } from './card-shapes.ts'
import { sendOnce } from './send-once.ts'
import { sendPhotos } from './send-photos.ts'

export interface Sending {
  readonly done: number
  readonly count: number
  /** Milliseconds that the rest will take, by the pace so far; null while nothing is known. */
  readonly leftMs: number | null
  readonly away: boolean
}

export interface Card {
  /** Names of the files by the SHA-256 of their bytes; the same photo may lie on a card twice. */
  readonly names: ReadonlyMap<string, readonly string[]>
  readonly leftOut: readonly LeftOut[]
  /** Null when nothing is being sent. */
  readonly sending: Sending | null
  readonly proposal: CardProposal | null
  readonly reference: Reference | null
  /** Whose camera it is; null for anybody's. */
  readonly by: PersonId | null
  readonly refusal: Refusal | null
  readonly add: (files: readonly File[]) => Promise<void>
  /** Sends no more; what has been sent is shown. */
  readonly stop: () => void
  /** Puts the camera's clock right for all photos, or takes it as right for null. Null when it was done. */
  readonly correct: (reference: Reference | null) => Promise<Refusal | null>
  /** Says whose camera it is: others who were clocked on at the time are then passed over. */
  readonly takenBy: (by: PersonId | null) => Promise<void>
  /** Asks again where the photos belong. */
  readonly askAgain: () => Promise<void>
}

/** The photos of a card: sent to the host one after the other, then matched there to the work. */
export function useCard(carId: CarId | null): Card {
  const [names, setNames] = useState<Card['names']>(new Map())
  const [leftOut, setLeftOut] = useState<readonly LeftOut[]>([])
  const [sending, setSending] = useState<Sending | null>(null)
  const [proposal, setProposal] = useState<CardProposal | null>(null)
  const [reference, setReference] = useState<Reference | null>(null)
  const [by, setBy] = useState<PersonId | null>(null)
  const [refusal, setRefusal] = useState<Refusal | null>(null)
  const stopped = useRef(false)
  const asked = useRef(0)
  useEffect(
    () => () => {
      stopped.current = true
    },
    [],
  )

  const ask = async (known: Card['names'], more: Partial<Ask> = {}): Promise<Refusal | null> => {
    const turn = (asked.current += 1)
    const wanted = { sha256s: [...known.keys()], carId, by, reference, ...more }
    const answer = await answered(() => client.cardProposal.mutate(wanted), WHEN_BACK, cannotMatch)
    // Whoever changes their mind quickly is shown the last answer, not the slowest.
    if (turn !== asked.current) return null
    if (!answer.ok) return answer.refusal
    setProposal(answer.proposal)
    return null
  }
  const add = async (files: readonly File[]) => {
    const sorted = sortFiles(files)
    const known = new Map(names)
    const unsent = new Set(sorted.photos)
    const refused: LeftOut[] = []
    setRefusal(null)
    stopped.current = false
    await send(sorted.photos, stopped, setSending, (file, answer) => {
      unsent.delete(file)
      if (answer.ok) known.set(answer.sha256, [...(known.get(answer.sha256) ?? []), file.name])
      else refused.push({ name: file.name, why: `${answer.refusal.message} ${answer.refusal.next}` })
    })
    setNames(known)
    const stoppedBefore = [...unsent].map(({ name }) => ({ name, why: 'not read: it was stopped before' }))
    setLeftOut((before) => [...before, ...sorted.leftOut, ...refused, ...stoppedBefore])
    if (known.size > 0) setRefusal(await ask(known))
    setSending(null)
  }
  const correct = async (right: Reference | null) => {
    const refused = await ask(names, { reference: right })
    if (refused === null) setReference(right)
    return refused
  }
  const takenBy = async (person: PersonId | null) => {
    setBy(person)
    setRefusal(await ask(names, { by: person }))
  }
  return {
    names,
    leftOut,
    sending,
    proposal,
    reference,
    by,
    refusal,
    add,
    stop: () => {
      stopped.current = true
    },
    correct,
    takenBy,
    askAgain: async () => setRefusal(await ask(names)),
  }
}

const TRY_AGAIN_MS = 3_000

async function send(
  photos: readonly File[],
  stopped: { readonly current: boolean },
  show: (sending: Sending) => void,
  onAnswer: Parameters<typeof sendPhotos>[1]['onAnswer'],
): Promise<void> {
  const started = performance.now()
  const progress = { done: 0, count: photos.length, leftMs: null as number | null, away: false }
  show({ ...progress })
  await sendPhotos(photos, {
    send: sendOnce,
    isAway: isHostAway,
    pause: () => new Promise((resolve) => setTimeout(resolve, TRY_AGAIN_MS)),
    isStopped: () => stopped.current,
    onAway: (away) => {
      if (away === progress.away) return
      progress.away = away
      show({ ...progress })
    },
    onAnswer: (file, answer) => {
      onAnswer(file, answer)
      progress.done += 1
      const pace = (performance.now() - started) / progress.done
      progress.leftMs = pace * (progress.count - progress.done)
      show({ ...progress })
    },
  })
}

const WHEN_BACK = 'What was sent is kept there; try again when the connection is back.'

const cannotMatch = (error: unknown): Refusal => ({
  code: 'bad-input',
  message: error instanceof Error ? error.message : 'These photos could not be looked through.',
  next: 'Try again; if it stays so, choose fewer photos at once.',
})
