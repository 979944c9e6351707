import type { MoverView } from '../../domain/views/estimate-shapes.ts'

/** What the hours hang on most: where a look, or opening it first, tells most. */
export function EstimateMovers({ movers }: { readonly movers: readonly MoverView[] }) {
  return (
    <section className="stack-tight">
      <h3>What could move it</h3>
      {movers.length === 0 ? (
        <p className="quiet">Nothing is unsure any more.</p>
      ) : (
        <ol className="lines">
          {movers.map(({ name, share, words }) => (
            <li key={name} className="line">
              <span>
                <span className="strong">{name}</span>: {words}.
              </span>
              <span className="number quiet">{Math.round(share * 100)} % of the doubt</span>
            </li>
          ))}
        </ol>
      )}
    </section>
  )
}
