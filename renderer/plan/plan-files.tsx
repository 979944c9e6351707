/** The plan of one person or one bay, on paper and for a calendar. */
export function PlanFiles({
  of,
  id,
  name,
}: {
  readonly of: 'person' | 'bay'
  readonly id: string
  readonly name: string
}) {
  return (
    <div className="row">
      <a className="reaching" href={`/plan/${of}/${id}.pdf`} download>
        print<span className="hidden-word"> the plan of {name}</span>
      </a>
      <a className="reaching" href={`/plan/${of}/${id}.ics`} download>
        calendar file<span className="hidden-word"> of {name}</span>
      </a>
    </div>
  )
}
