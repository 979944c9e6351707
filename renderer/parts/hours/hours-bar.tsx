import { Fragment } from 'react'
import { fixed, hours } from '../../../domain/text/words.ts'
import type { HoursPair } from '../../../domain/views/shared-views.ts'

type BarFigures = Pick<HoursPair, 'authorised' | 'waiting' | 'earned' | 'spent'>

/**
 * Hours as two bars on one scale: earned within the authorised frame above, spent below; what is spent beyond the
 * authorised hours is hatched.
 *
 * @param scale hours that the full width stands for; the larger of authorised and spent unless given
 */
export function HoursBar({ hours: pair, scale }: { readonly hours: HoursPair; readonly scale?: number }) {
  return <EarnedBar figures={pair} label={hoursWords(pair)} {...(scale !== undefined && { scale })} />
}

/** The same of any one unit. */
export function EarnedBar({
  figures: { authorised, waiting, earned, spent },
  label,
  scale,
}: {
  readonly figures: BarFigures
  readonly label: string
  readonly scale?: number
}) {
  const full = Math.max(scale ?? 0, authorised + waiting, spent, 0.1)
  const share = (value: number) => `${Math.min(100, (100 * Math.max(0, value)) / full)}%`
  return (
    <div className="hours-bar" role="img" aria-label={label}>
      <div className="hours-track">
        {authorised > 0 && <div className="hours-frame" style={{ width: share(authorised) }} />}
        {waiting > 0 && (
          <div className="hours-waiting" style={{ left: share(authorised), width: share(waiting) }} />
        )}
        <div className="hours-earned" style={{ width: share(earned) }} />
      </div>
      <div className="hours-track low">
        <div className="hours-spent" style={{ width: share(Math.min(spent, authorised)) }} />
        {spent > authorised && (
          <div className="hours-over" style={{ left: share(authorised), width: share(spent - authorised) }} />
        )}
      </div>
    </div>
  )
}

/** '142.5 of 178.0 h' */
export const spentOf = ({ spent, authorised }: HoursPair): string =>
  `${fixed(spent, 1)} of ${hours(authorised)}`

/** '142.5 h spent, 120 h earned of 178 h authorised, 14 h wait for a decision' */
export function hoursWords({ authorised, waiting, earned, spent, rework }: HoursPair): string {
  return [
    `${hours(spent)} spent`,
    `${hours(earned)} earned of ${hours(authorised)} authorised`,
    ...(waiting > 0 ? [`${hours(waiting)} wait for a decision`] : []),
    ...(rework > 0 ? [`${hours(rework)} of it rework`] : []),
  ].join(', ')
}

const KEYS = [
  { mark: 'frame', words: 'authorised' },
  { mark: 'waiting', words: 'waits for a decision' },
  { mark: 'earned', words: 'earned' },
  { mark: 'spent', words: 'spent' },
  { mark: 'over', words: 'spent beyond' },
]

export function HoursLegend() {
  return (
    <p className="hours-legend">
      {KEYS.map(({ mark, words }) => (
        <Fragment key={mark}>
          <span className="unbroken">
            <span className={`hours-key ${mark}`} /> {words}
          </span>{' '}
        </Fragment>
      ))}
    </p>
  )
}
