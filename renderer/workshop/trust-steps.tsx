import type { ReactNode } from 'react'
import { useWhen } from '../parts/frame/when.tsx'
import { AgreePicture, ComparePicture, OpenedPicture, SavePicture } from './trust-pictures.tsx'
import type { OpenNetwork } from './workshop-shapes.ts'
import styles from './network.module.css'

/** The authority's certificate, from the window and over HTTPS. */
const CERTIFICATE = '/workshop-certificate.crt'

interface Props {
  readonly state: OpenNetwork
  readonly trust: NonNullable<OpenNetwork['trust']>
}

/** How a tablet is told to trust this computer, in pictures and words that fit whatever it is. */
export function TrustSteps({ state, trust: { title, fingerprint, until } }: Props) {
  const when = useWhen()
  const [origin] = state.origins
  return (
    <section className="stack">
      <div className="stack-tight">
        <h2>Once on each tablet: trust this computer</h2>
        <p className={styles.why}>
          Without it the browser warns each time. The certificate vouches for this computer in private
          networks and for nothing else: no site of the internet can be passed off with it.
        </p>
      </div>
      <ol className={styles.steps}>
        <Step picture={<SavePicture />} title="Bring the certificate to the tablet">
          {origin !== undefined && (
            <p>
              Open <span className={styles.address}>{`${origin}${CERTIFICATE}`}</span> in its browser. It
              warns, as it does not know this computer yet: go on this once, and let it save the file.
            </p>
          )}
          <p>
            Or{' '}
            <a href={CERTIFICATE} download>
              save the certificate here
            </a>{' '}
            and bring it by memory stick or e-mail. It is not secret.
          </p>
        </Step>
        <Step picture={<ComparePicture />} title="Compare its fingerprint">
          <p>
            Open the file. Before you agree to anything, look at its details: the name is{' '}
            <span className="strong">{title}</span>, and the SHA-256 fingerprint must be this one. If a group
            differs, stop: the file came from somebody else.
          </p>
          <p className={styles.fingerprint} aria-label="SHA-256 fingerprint">
            {fingerprint.split(' ').map((group, at) => (
              // Groups stand still, and two of them may be the same.
              <span key={at}>{group}</span>
            ))}
          </p>
        </Step>
        <Step picture={<AgreePicture />} title="Install it as an authority, and trust it">
          <p>
            In the tablet’s settings look for “certificate” and install the file as an authority, often called
            CA certificate. Some tablets take it as a profile first and have a second switch, under what they
            say about themselves, that turns trust on.
          </p>
        </Step>
        <Step picture={<OpenedPicture />} title="Open Panelwright">
          <p>
            Close the browser and open {origin === undefined ? 'the address' : <Address of={origin} />} anew.
            There is no warning any more. “Install” or “Add to home screen” in the browser’s menu puts it
            among the tablet’s apps, where it opens without this computer too, on the day as it was.
          </p>
        </Step>
      </ol>
      <p className="small quiet">
        This computer’s own certificate lasts until {when.day(until)} and is renewed by itself; tablets need
        not be told.
      </p>
    </section>
  )
}

function Step({
  picture,
  title,
  children,
}: {
  readonly picture: ReactNode
  readonly title: string
  readonly children: ReactNode
}) {
  return (
    <li className={styles.step}>
      {picture}
      <div className="stack-tight">
        <h3>{title}</h3>
        {children}
      </div>
    </li>
  )
}

const Address = ({ of }: { readonly of: string }) => <span className={styles.address}>{of}</span>
