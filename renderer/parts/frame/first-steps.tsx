import { Link, type LinkProps } from '@tanstack/react-router'
import { useState } from 'react'
import { FIRST_STEPS, type FirstStep, type FirstStepsView } from '../../../domain/views/first-steps-view.ts'
import { useActor } from '../sign/actor.tsx'
import { WordButton } from '../form/button.tsx'
import styles from './first-steps.module.css'
import { MarkSign } from '../gates/gate-strip.tsx'

/**
 * Quietly above a screen of a new workshop: what still leads to the first signed gate, each step with the place where it
 * is done. It comes with the session, so that nothing moves when it is there, and goes by itself with the last step.
 */
export function FirstSteps() {
  const { firstSteps } = useActor().session
  const [isPutAway, setIsPutAway] = useState(readPutAway)
  const [isWhole, setIsWhole] = useState(false)
  if (firstSteps === null || isPutAway) return null
  const { next, done } = firstSteps
  return (
    <section className={styles.strip} aria-label="First steps">
      <div className={styles.head}>
        <span className={styles.count}>
          First steps, {done.length} of {FIRST_STEPS.length}
        </span>
        <StepLink step={next} view={firstSteps} className="button" />
        <span className={styles.acts}>
          <WordButton className={styles.more} aria-expanded={isWhole} onClick={() => setIsWhole(!isWhole)}>
            {isWhole ? 'fewer' : 'all of them'}
          </WordButton>
          <WordButton
            onClick={() => {
              keepPutAway()
              setIsPutAway(true)
            }}
          >
            put away<span className="hidden-word"> the first steps</span>
          </WordButton>
        </span>
      </div>
      <p className="small quiet">{whyOf(firstSteps)}</p>
      <ol className={isWhole ? `${styles.steps} ${styles.whole}` : styles.steps}>
        {FIRST_STEPS.map((step) => (
          <li key={step} className={styles.step} {...(step === next && { 'aria-current': 'step' as const })}>
            <MarkSign mark={done.includes(step) ? 'passed' : step === next ? 'next' : 'later'} />
            {isReached(step, firstSteps) ? (
              <StepLink step={step} view={firstSteps} />
            ) : (
              <span className="quiet">{STEPS[step].words}</span>
            )}
            {done.includes(step) && <span className="hidden-word">, done</span>}
          </li>
        ))}
      </ol>
    </section>
  )
}

const STEPS: Readonly<Record<FirstStep, { readonly words: string; readonly why: string }>> = {
  people: {
    words: 'Who works here',
    why: 'Everyone who clocks time or signs, with what they can do and a code of their own.',
  },
  bays: { words: 'Where shells stand', why: 'Each place for a shell, with the kinds of work it is fit for.' },
  car: {
    words: 'The first shell and its owner',
    why: 'What it is, whose it is and what was promised; a photo as it came in.',
  },
  repair: {
    words: 'Its first repair',
    why: 'One cavity or joint, from a repair type: it brings layers, gates and usual hours.',
  },
  agreed: {
    words: 'What the owner agrees to',
    why: 'Hours that nobody agreed to hold every gate, and so does a visit that is not in work.',
  },
  gate: {
    words: 'The first gate, signed',
    why: 'Take the photos that it asks for, then sign it off with your code.',
  },
  clock: {
    words: 'A clock on it',
    why: 'Clock in on the repair: one tap, and its hours are kept. After hot work a fire watch follows.',
  },
}

const whyOf = ({ next, waitsForStatus }: FirstStepsView): string =>
  next === 'agreed' && waitsForStatus
    ? 'The hours are agreed to. Now say under Change, How far the visit is, that it is in work.'
    : STEPS[next].why

/** The places of a step that is still far off are not there yet. */
const isReached = (step: FirstStep, { carId, repairId }: FirstStepsView): boolean =>
  step === 'clock' || step === 'gate'
    ? repairId !== null
    : step === 'repair' || step === 'agreed'
      ? carId !== null
      : true

function StepLink({
  step,
  view,
  className = '',
}: {
  readonly step: FirstStep
  readonly view: FirstStepsView
  readonly className?: string
}) {
  return (
    <Link {...placeOf(step, view)} className={className} activeOptions={{ exact: true }}>
      {STEPS[step].words}
    </Link>
  )
}

function placeOf(step: FirstStep, { carId, repairId }: FirstStepsView): LinkProps {
  switch (step) {
    case 'people':
      return { to: '/workshop' }
    case 'bays':
      return { to: '/workshop', search: { sheet: 'bays' } }
    case 'car':
      return { to: '/cars', search: { add: true } }
    case 'repair':
      return { to: '/cars/$carId', params: { carId: carId ?? '' } }
    case 'agreed':
      return { to: '/cars/$carId', params: { carId: carId ?? '' }, search: { sheet: 'estimate' } }
    case 'clock':
    case 'gate':
      return {
        to: '/cars/$carId/repairs/$repairId',
        params: { carId: carId ?? '', repairId: repairId ?? '' },
      }
  }
}

const KEY = 'panelwright.first-steps'
const readPutAway = (): boolean => localStorage.getItem(KEY) === 'put away'
const keepPutAway = (): void => localStorage.setItem(KEY, 'put away')
