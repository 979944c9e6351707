import { useEffect, type ReactNode } from 'react'

export interface Figure {
  readonly label: string
  readonly value: ReactNode
  readonly tone?: 'accent' | 'passed'
}

/** The head of every screen; its title is the window's title too. */
export function ScreenHead({
  title,
  below,
  figures = [],
}: {
  readonly title: string
  /** A quiet line below the title. */
  readonly below?: ReactNode
  readonly figures?: readonly Figure[]
}) {
  useEffect(() => {
    document.title = `${title} – Panelwright`
  }, [title])
  return (
    <header className="screen-head">
      <div>
        <h1>{title}</h1>
        {below !== undefined && <p>{below}</p>}
      </div>
      {figures.length > 0 && (
        <dl className="figures">
          {figures.map(({ label, value, tone }) => (
            <div key={label}>
              <dt>{label}</dt>
              <dd className={tone === undefined ? undefined : `is-${tone}`}>{value}</dd>
            </div>
          ))}
        </dl>
      )}
    </header>
  )
}
