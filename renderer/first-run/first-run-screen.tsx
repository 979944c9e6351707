import { useNavigate } from '@tanstack/react-router'
import { useEffect, useState } from 'react'
import { BODIES } from '../../domain/facts/car-facts.ts'
import { useActor } from '../parts/sign/actor.tsx'
import { Button } from '../parts/form/button.tsx'
import { CarSign } from '../parts/drawing/car-drawing.tsx'
import { Notice } from '../parts/form/notice.tsx'
import { DemoChoice } from './demo-choice.tsx'
import styles from './first-run.module.css'
import { RestoreChoice } from './restore-choice.tsx'
import { SetUpForm } from './set-up-form.tsx'
import { TakeInChoice } from './take-in-choice.tsx'

/** The first start: set up your workshop, look around the demo, or take in a workshop that was taken out elsewhere. */
export function FirstRunScreen() {
  const navigate = useNavigate()
  const { session } = useActor()
  const [isSettingUp, setIsSettingUp] = useState(false)
  // As soon as there is a workshop, whoever made it: a new one is furnished first, the demo is looked at.
  useEffect(() => {
    if (session.setUp) void navigate({ to: session.demo ? '/shop-floor' : '/workshop', replace: true })
  }, [navigate, session.demo, session.setUp])
  return (
    <div className={styles.page}>
      <header>
        <h1>Panelwright</h1>
        <p className={styles.lead}>
          For workshops that restore the bodyshells of old cars: nothing is covered that has not been
          repaired, sealed, primed, photographed and signed for.
        </p>
      </header>
      <div className={styles.frieze} aria-hidden="true">
        {BODIES.map((body) => (
          <CarSign key={body} body={body} length={112} />
        ))}
      </div>
      {!session.isHostsOwn && (
        <Notice kind="held">
          <p>
            The workshop is set up on the computer that Panelwright runs on, in its own window. This screen
            joins in afterwards by itself.
          </p>
        </Notice>
      )}
      {session.isHostsOwn &&
        (isSettingUp ? (
          <section className={styles.setUp}>
            <h2>Set up your workshop</h2>
            <SetUpForm onCancel={() => setIsSettingUp(false)} />
          </section>
        ) : (
          <div className={styles.choices}>
            <section className={styles.choice}>
              <h2>Set up your workshop</h2>
              <p>
                Its name, the first manager with an own code, and if you like a catalogue of repair types and
                the usual bays to start from. Everything can be changed later.
              </p>
              <Button kind="main" onClick={() => setIsSettingUp(true)}>
                Set up your workshop
              </Button>
            </section>
            <section className={styles.choice}>
              <h2>Look around the demo</h2>
              <DemoChoice />
            </section>
            <section className={styles.choice}>
              <h2>Take in a workshop</h2>
              <TakeInChoice />
            </section>
            <section className={styles.choice}>
              <h2>Restore from a copy</h2>
              <RestoreChoice />
            </section>
          </div>
        ))}
      <p className="quiet small">
        The program informs; it does not certify. Local codes, the insurer’s rules and licensed inspectors
        decide what is safe.
      </p>
    </div>
  )
}
