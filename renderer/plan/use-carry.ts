import { useCallback, useEffect, useState } from 'react'
import type { BayId, BookingId } from '../../domain/ids.ts'
import type { PlannedStay } from '../../domain/plan/plan.ts'
import type { Refusal } from '../../domain/refusal.ts'
import { newId } from '../parts/form/new-id.ts'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import type { When } from '../parts/frame/when.tsx'
import { isWhereItWas, moveOn, pickUp, type PickedUp, type Place, putAt, toWhatIf } from './pick-up.ts'
import type { ShownPlan } from './plan-context.ts'
import { type Foreseen, tryWhatIf } from './try-what-if.ts'
import { consequences } from './plan-words.ts'

/** What was put down last, so that it can be taken back. */
export interface PutDown {
  readonly words: string
  readonly picked: PickedUp
}

export interface Carry {
  readonly picked: PickedUp | null
  readonly foreseen: Foreseen
  readonly putDown: PutDown | null
  readonly refusal: Refusal | null
  readonly take: (key: string, stay: PlannedStay) => void
  readonly moveOn: (step: { readonly days: number; readonly bays: number }) => void
  /** By whole days from where it was. */
  readonly putAt: (bayId: BayId, days: number) => void
  /** Makes it a booking; only once what comes of it has been said. False while that is not known. */
  readonly drop: () => boolean
  readonly cancel: () => void
  /** Undoes what was put down last. */
  readonly takeBack: () => void
}

/** The quiet time after which what comes of a move is asked for. */
const PAUSE_MS = 180

/** A stay that is carried to another bay or date, by the mouse or by the keys. */
export function useCarry(
  { view, names }: Pick<ShownPlan, 'view' | 'names'>,
  when: When,
  say: (words: string) => void,
): Carry {
  const command = useCommand()
  const [picked, setPicked] = useState<PickedUp | null>(null)
  const [putDown, setPutDown] = useState<PutDown | null>(null)
  const foreseen = useForeseen(picked, when, say)
  const bays = view.bays.map(({ bayId }) => bayId)

  const placeWords = (place: Place) =>
    `${names.bay(place.bayId)}, ${when.day(place.from)} to ${when.day(place.to)}`
  const hold = (next: PickedUp) => {
    setPicked(next)
    if (!isSamePlace(next.place, picked?.place)) say(placeWords(next.place))
  }
  const send = async (booking: PickedUp, place: Place) =>
    command.send({
      kind: booking.isBooked ? 'changeBooking' : 'bookBay',
      carId: booking.carId,
      payload: { bookingId: booking.bookingId, ...place },
    })

  const drop = () => {
    if (picked === null) return true
    if (isWhereItWas(picked) && picked.isBooked) {
      setPicked(null)
      say('It stays where it was.')
      return true
    }
    if (foreseen.is !== 'known') return false
    setPicked(null)
    void send(picked, picked.place).then((outcome) => {
      if (!isSettled(outcome)) return
      const words = `Booked: the ${names.car(picked.carId)} in ${placeWords(picked.place)}.`
      setPutDown({ words, picked })
      say(words)
    })
    return true
  }
  const cancel = useCallback(() => {
    setPicked(null)
    say('Put back where it was.')
  }, [say])

  return {
    picked,
    foreseen,
    putDown,
    refusal: command.refusal,
    take: (key, stay) => {
      setPutDown(null)
      command.clear()
      setPicked(pickUp(key, stay, when.dateOf, newId<BookingId>()))
      say(
        `The ${names.car(stay.carId)} is picked up. Left and right move it by a day, with Shift by a week; up and down to another bay. Enter puts it down, Escape takes it back.`,
      )
    },
    moveOn: (step) => picked !== null && hold(moveOn(picked, step, bays, when.today)),
    putAt: (bayId, days) => picked !== null && hold(putAt(picked, bayId, days, when.today)),
    drop,
    cancel,
    takeBack: () => {
      if (putDown === null) return
      const { picked: booking } = putDown
      setPutDown(null)
      if (booking.isBooked) void send(booking, booking.was)
      else {
        const payload = { bookingId: booking.bookingId, reason: '' }
        void command.send({ kind: 'cancelBooking', carId: booking.carId, payload })
      }
      say('Taken back.')
    },
  }
}

/** Asks what would come of it once the stay is held still; an answer for another place is not shown. */
function useForeseen(picked: PickedUp | null, when: When, say: (words: string) => void): Foreseen {
  const [known, setKnown] = useState<{ readonly of: string; readonly foreseen: Foreseen } | null>(null)
  const of =
    picked === null || (isWhereItWas(picked) && picked.isBooked) ? null : JSON.stringify(toWhatIf(picked))

  useEffect(() => {
    if (of === null || picked === null) return
    const stop = new AbortController()
    const ask = async () => {
      const foreseen = await tryWhatIf([toWhatIf(picked)], stop.signal)
      if (stop.signal.aborted) return
      setKnown({ of, foreseen })
      say(foreseenWords(foreseen, when))
    }
    const timer = window.setTimeout(() => void ask(), PAUSE_MS)
    return () => {
      window.clearTimeout(timer)
      stop.abort()
    }
    // `of` says all of `picked` that matters here.
    // oxlint-disable-next-line react-hooks/exhaustive-deps
  }, [of, say, when])

  if (of === null) return { is: 'nothing' }
  return known?.of === of ? known.foreseen : { is: 'asked' }
}

/** What comes of it, in one sentence for who listens. */
function foreseenWords(foreseen: Foreseen, when: When): string {
  if (foreseen.is === 'failed') return foreseen.words
  if (foreseen.is !== 'known') return ''
  if (foreseen.answer.words !== '') return foreseen.answer.words
  const found = consequences(foreseen.answer, when)
  return found.length === 0
    ? 'No car becomes later or earlier by it.'
    : found.map(({ words }) => words).join('; ')
}

const isSamePlace = (a: Place, b: Place | undefined): boolean =>
  a.bayId === b?.bayId && a.from === b.from && a.to === b.to
