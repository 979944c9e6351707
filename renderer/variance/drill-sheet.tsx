import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import type { VisitId } from '../../domain/ids.ts'
import { fixed, hours, plural } from '../../domain/text/words.ts'
import type { VarianceDrill } from '../../domain/views/variance-shapes.ts'
import { api } from '../client.ts'
import { HoursBar, spentOf } from '../parts/hours/hours-bar.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { groupingOf, type VarianceDrillBy } from '../parts/sheets/variance-sheets.ts'
import { CurvesFigure } from './curves-figure.tsx'
import { FigureList } from './figure-list.tsx'
import { signedHours } from '../parts/hours/signed-hours.ts'
import { VisitWork } from './visit-work.tsx'
import styles from './variance.module.css'

/** What one figure is made of: its visits, worst first, and of the chosen one the repairs, gates and single entries. */
export function DrillSheet({
  by,
  of,
  visitId,
}: {
  readonly by: VarianceDrillBy
  /** The key of the line that is looked into. */
  readonly of: string
  readonly visitId: VisitId | undefined
}) {
  const query = useQuery(api.varianceDrill.queryOptions({ grouping: groupingOf(by), key: of }))
  return <Loaded query={query}>{(drill) => <Drill by={by} drill={drill} visitId={visitId} />}</Loaded>
}

function Drill({
  by,
  drill,
  visitId,
}: {
  readonly by: VarianceDrillBy
  readonly drill: VarianceDrill
  readonly visitId: VisitId | undefined
}) {
  const chosen = drill.visits.find((visit) => visit.visitId === visitId) ?? onlyOne(drill.visits)
  return (
    <div className="stack">
      <nav aria-label="Way back">
        <Link to="/variance" search={by === 'cause' ? {} : { by }} activeOptions={{ exact: true }}>
          ‹ all {BACK_WORDS[by]}
        </Link>
      </nav>
      <section className="stack-tight">
        <h2>{by === 'cause' ? `Rework: ${drill.name}` : drill.name}</h2>
        <FigureList figures={drill.total} />
      </section>
      {by === 'car' && chosen !== undefined && <CurvesFigure carId={chosen.carId} visitId={chosen.visitId} />}
      {by !== 'car' && <VisitLines by={by} drill={drill} chosen={chosen?.visitId} />}
      {chosen !== undefined && <VisitWork key={chosen.visitId} drill={drill} visit={chosen} />}
    </div>
  )
}

const onlyOne = <T,>(items: readonly T[]): T | undefined => (items.length === 1 ? items[0] : undefined)

const BACK_WORDS: Readonly<Record<VarianceDrillBy, string>> = {
  gate: 'gates',
  type: 'repair types',
  car: 'cars',
  zone: 'zones',
  month: 'months',
  person: 'people',
  cause: 'gates and causes',
}

function VisitLines({
  by,
  drill,
  chosen,
}: {
  readonly by: VarianceDrillBy
  readonly drill: VarianceDrill
  readonly chosen: VisitId | undefined
}) {
  const scale = Math.max(0, ...drill.visits.map(({ hours: pair }) => Math.max(pair.authorised, pair.spent)))
  return (
    <section className="stack-tight">
      <h3>On which cars</h3>
      <ul className={styles.lines}>
        {drill.visits.map((visit) => (
          <li key={visit.key} className={styles.visit}>
            <Link
              to="/variance"
              search={{ by, key: drill.key, visit: visit.visitId }}
              resetScroll={false}
              {...(visit.visitId === chosen && { 'aria-current': 'true' as const })}
            >
              {visit.name}
            </Link>
            <HoursBar hours={visit.hours} scale={scale} />
            <span className="number small">
              {by === 'cause' ? `${hours(visit.hours.rework)} rework` : spentOf(visit.hours)}
            </span>
            <span className={`number ${visit.variance < -0.05 ? 'is-accent' : 'is-passed'}`}>
              {by === 'cause' ? '' : signedHours(visit.variance)}
            </span>
            <span className="number small quiet">
              {visit.index === null ? '' : `index ${fixed(visit.index, 2)}`}
            </span>
          </li>
        ))}
      </ul>
      {drill.leftOut > 0 && (
        <p className="quiet">
          The worst {drill.visits.length} are named here. {plural('further visit', drill.leftOut)}{' '}
          {drill.leftOut === 1 ? 'is' : 'are'} counted in the figures above.
        </p>
      )}
    </section>
  )
}
