import type { CarState } from '../car.ts'
import type { CarId } from '../ids.ts'
import { refuse, type Refusal } from '../refusal.ts'
import { dayWords } from '../text/words.ts'
import { localDateOf } from '../time/zone.ts'

/** What is known here that may stand against a car that comes in. */
export interface KnownHere {
  /** The car with the same id, wherever it came from. */
  readonly car: CarState | null
  readonly shellNumbers: ReadonlyMap<string, CarId>
  readonly carNames: ReadonlyMap<CarId, string>
  readonly zone: string
}

/** Why a car that came with its file cannot be taken in as it is; null when it can. */
export function bringInRefusal(shellNumber: string, known: KnownHere): Refusal | null {
  return sameCarRefusal(known) ?? shellRefusal(shellNumber, known)
}

function sameCarRefusal({ car, zone }: KnownHere): Refusal | null {
  if (car === null) return null
  const named = `${car.name}, shell ${car.shellNumber}`
  const next = 'Open it from the list of cars; what happens from now on is recorded here.'
  if (car.broughtIn === null)
    return refuse('already', `This car is kept in this workshop: ${named}.`, next).refusal
  const day = dayWords(localDateOf(car.broughtIn.stamp.recorded, zone), 0)
  const { from } = car.broughtIn
  return refuse('already', `This car came in with its file from ${from} on ${day}: ${named}.`, next).refusal
}

function shellRefusal(shellNumber: string, { shellNumbers, carNames }: KnownHere): Refusal | null {
  const taken = shellNumbers.get(shellNumber)
  if (taken === undefined) return null
  return refuse(
    'already',
    `Shell number ${shellNumber} is taken here by ${carNames.get(taken) ?? 'another car'}.`,
    'Give the car another shell number.',
  ).refusal
}
