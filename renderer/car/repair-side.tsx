import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { useState } from 'react'
import { capital, fixed, hours } from '../../domain/text/words.ts'
import type { HoldView, RepairCard } from '../../domain/views/shared-views.ts'
import type { CarView, RepairView } from '../../domain/views/view-shapes.ts'
import { api } from '../client.ts'
import { WordButton } from '../parts/form/button.tsx'
import { HoldNote } from '../parts/gates/hold-note.tsx'
import { hoursWords } from '../parts/hours/hours-bar.tsx'
import { Section } from '../parts/drawing/section.tsx'
import styles from './car.module.css'
import { LinkDialog, type LinkSide } from './link-dialog.tsx'
import { UnlinkDialog } from './unlink-dialog.tsx'

/** One repair beside the map: its section, what covers it, and what its next gate asks for. */
export function RepairSide({ view, repair }: { readonly view: CarView; readonly repair: RepairCard }) {
  const { carId } = view.header
  const query = useQuery(api.repair.queryOptions({ carId, repairId: repair.id }))
  const section = view.sections[repair.id]
  return (
    <div className="stack">
      <div>
        <h2>{repair.name}</h2>
        <p className="quiet small">
          {[
            repair.loadBearing ? 'load-bearing' : null,
            repair.onPart ? 'on a part off the car' : null,
            `${repair.payer} pays`,
          ]
            .filter(Boolean)
            .join('; ')}
        </p>
      </div>
      {section !== undefined && <Section section={section} />}
      {/* All at once: what the gate asks for stands above the rest, and would push it down. */}
      {!query.isPending && (
        <>
          {query.data?.next && <NextGate next={query.data.next} />}
          {repair.finished && <p>{repair.closedAsFound ? 'Closed as found.' : 'Every gate is done.'}</p>}
          {repair.holds.filter(isMoreThanAsked).map((hold) => (
            <HoldNote key={`${hold.code}${hold.subject}`} hold={hold} />
          ))}
          <p className="small quiet">{capital(hoursWords(repair.hours))}.</p>
          <Link
            to="/cars/$carId/repairs/$repairId"
            params={{ carId, repairId: repair.id }}
            className="button main"
          >
            Open this repair
          </Link>
          <Links view={view} repair={repair} />
        </>
      )}
    </div>
  )
}

/** What the gate asks for stands in its list already. */
const isMoreThanAsked = (hold: HoldView): boolean => !hold.broughtByWork

function NextGate({ next }: { readonly next: NonNullable<RepairView['next']> }) {
  const { shortest, longest } = next.hours
  return (
    <section>
      <div className="spread">
        <h3>Next: {next.gate}</h3>
        <span className="quiet small">
          {fixed(shortest, 1)} to {hours(longest)}, {next.skill}
        </span>
      </div>
      <ul className="lines">
        {next.asks.map((ask) => (
          <li key={ask.key} className={styles.ask}>
            <span className="spread">
              <span>{ask.words}</span>
              <span className="strong">{ask.have}</span>
            </span>
            <span className={ask.met ? 'is-passed' : 'is-accent'}>{ask.met ? '✓ there' : 'needed'}</span>
          </li>
        ))}
      </ul>
    </section>
  )
}

interface Unlinking {
  readonly over: RepairCard
  readonly under: RepairCard
}

function Links({ view, repair }: { readonly view: CarView; readonly repair: RepairCard }) {
  const [linking, setLinking] = useState<LinkSide | null>(null)
  const [unlinking, setUnlinking] = useState<Unlinking | null>(null)
  const card = (id: string) => view.repairs.find((each) => each.id === id)
  const links = view.covers.flatMap((cover) => {
    const over = card(cover.over)
    const under = card(cover.under)
    const isOf = cover.over === repair.id || cover.under === repair.id
    return isOf && over !== undefined && under !== undefined
      ? [{ over, under, barred: cover.barred, words: cover.words }]
      : []
  })
  return (
    <section>
      <h3>Covers</h3>
      {links.length === 0 && <p className="quiet">Nothing covers it and it covers nothing.</p>}
      <ul className="lines">
        {links.map(({ over, under, barred, words }) => (
          <li key={`${over.id} ${under.id}`} className="line">
            <span>
              {over.id === repair.id ? `covers ${under.name}` : `covered by ${over.name}`}
              {barred && (
                <span className="small is-accent"> may not close yet{words === '' ? '' : `: ${words}`}</span>
              )}
            </span>
            <WordButton onClick={() => setUnlinking({ over, under })}>remove</WordButton>
          </li>
        ))}
      </ul>
      <div className="button-row">
        <WordButton onClick={() => setLinking('covers')}>it covers another</WordButton>
        <WordButton onClick={() => setLinking('covered by')}>another covers it</WordButton>
      </div>
      {linking !== null && (
        <LinkDialog view={view} repair={repair} side={linking} onClose={() => setLinking(null)} />
      )}
      {unlinking !== null && (
        <UnlinkDialog carId={view.header.carId} {...unlinking} onClose={() => setUnlinking(null)} />
      )}
    </section>
  )
}
