import { fixed } from '../../domain/text/words.ts'
import { WordButton } from '../parts/form/button.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import { useRepair } from './repair-context.ts'
import styles from './repair.module.css'

/** Conditions, welds and reference dimensions as last read. */
export function ReadingList() {
  const { view, open } = useRepair()
  const when = useWhen()
  const { conditions, welds, dimensions } = view
  if (conditions.length + welds.length + dimensions.length === 0) return null
  return (
    <section className="stack-tight">
      <h3>Readings</h3>
      <ul className="lines">
        {conditions.map((each) => (
          <li key={each.at} className="line">
            <span>
              {each.gate}: steel {fixed(each.steelC, 1)} °C, air {fixed(each.airC, 1)} °C,{' '}
              <span className="unbroken">humidity {fixed(each.humidityPercent, 0)} %</span>
              <br />
              <span className="small quiet">
                dew point {fixed(each.dewPointC, 1)} °C; {when.dayAndTime(each.at)}, {each.by}
              </span>
            </span>
            <span className={`${styles.read} ${each.inside ? 'is-passed' : 'is-accent'}`}>
              {each.inside ? `margin ${fixed(each.marginC, 1)} °C` : each.words}
            </span>
          </li>
        ))}
        {welds.map(({ jointId, name, kind, planned, done }) => (
          <li key={jointId} className="line">
            <WordButton onClick={() => open({ kind: 'welds' })}>{name}</WordButton>
            <span className={`${styles.read} ${done >= planned ? 'is-passed' : 'quiet'}`}>
              {done} of {planned} {kind === 'seam' ? 'mm of seam' : `${kind} welds`}
            </span>
          </li>
        ))}
        {dimensions.map((dimension) => (
          <li key={dimension.id} className="line">
            <WordButton onClick={() => open({ kind: 'dimension', dimensionId: dimension.id })}>
              {dimension.name}
            </WordButton>
            <LastReading dimension={dimension} />
          </li>
        ))}
      </ul>
    </section>
  )
}

type Dimension = ReturnType<typeof useRepair>['view']['dimensions'][number]

function LastReading({ dimension }: { readonly dimension: Dimension }) {
  const when = useWhen()
  const last = dimension.readings.toSorted((a, b) => b.at - a.at)[0]
  if (last === undefined)
    return <span className={`${styles.read} quiet`}>as found {fixed(dimension.asFoundMm, 1)} mm</span>
  const tone = last.inside === false ? 'is-accent' : last.inside ? 'is-passed' : 'quiet'
  return (
    <span className={`${styles.read} ${tone}`}>
      {fixed(last.mm, 1)} mm, {last.words} <span className="small quiet unbroken">{when.day(last.at)}</span>
    </span>
  )
}
