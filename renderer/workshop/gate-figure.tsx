import type { RepairPlan } from '../../domain/facts/shapes.ts'
import { gateOrder } from '../../domain/gates.ts'
import { fixed } from '../../domain/text/words.ts'
import { asksWords, gateTerms } from './plan-words.ts'
import styles from './types.module.css'

/**
 * The gates from top to bottom, hours of each as a dimension line from shortest to longest with a mark at the likeliest,
 * all on one scale.
 */
export function GateFigure({ plan }: { readonly plan: RepairPlan }) {
  const gates = gateOrder(plan)
  const full = Math.max(1, ...gates.map((gate) => plan.gates[gate].hours.longest))
  const share = (hours: number) => `${(100 * hours) / full}%`
  return (
    <ol className={styles.gates} aria-label="Gates">
      {gates.map((gate) => {
        const { hours } = plan.gates[gate]
        const asks = asksWords(plan.gates[gate])
        return (
          <li key={gate} className={styles.gate}>
            <span className="strong">{gate}</span>
            <span className={styles.span} aria-hidden="true">
              <span
                className={styles.range}
                style={{ left: share(hours.shortest), right: `calc(100% - ${share(hours.longest)})` }}
              />
              <span className={styles.likely} style={{ left: share(hours.likely) }} />
            </span>
            <span className="number">
              {fixed(hours.shortest, 2)} / <span className="strong">{fixed(hours.likely, 2)}</span> /{' '}
              {fixed(hours.longest, 2)} h
            </span>
            <span className={`${styles.terms} small quiet`}>
              {gateTerms(plan.gates[gate]).join(', ')}
              {asks.length > 0 && `; asks for ${asks.join(', ')}`}
            </span>
          </li>
        )
      })}
    </ol>
  )
}
