import { useWhen } from '../frame/when.tsx'

/** The promised date as a flag; one that is past says so in words. */
export function PromisedDate({ date, isLate }: { readonly date: string | null; readonly isLate: boolean }) {
  const when = useWhen()
  if (date === null) return <span className="quiet">no date promised</span>
  return (
    <span className={isLate ? 'is-accent' : undefined}>
      <svg className="flag" viewBox="0 0 14 20" aria-hidden="true">
        <path d="M12 19V2H5L2 5L5 8H12" />
      </svg>
      {when.day(date)}
      {isLate && ', past'}
    </span>
  )
}
