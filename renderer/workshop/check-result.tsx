import { plural } from '../../domain/text/words.ts'
import { Notice } from '../parts/form/notice.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import styles from './check.module.css'
import type { CheckState } from './workshop-shapes.ts'

type Last = NonNullable<CheckState['last']>

/** What the last check came to, in a sentence. */
export function CheckResult({ last }: { readonly last: Last }) {
  const when = useWhen()
  const ran = `${when.dayAndTime(last.at)}, it took ${tookWords(last.took)}.`
  if (last.brokenOff !== null)
    return (
      <Notice kind="refused">
        <p className="strong">The check could not be finished: {last.brokenOff}</p>
        <p className="small">{ran}</p>
      </Notice>
    )
  if (last.faults > 0)
    return (
      <Notice kind="refused">
        <p className="strong">{plural('fault', last.faults)}: something is lost or was changed.</p>
        <p>Keep the folder as it is until you have read what each fault means and what to do.</p>
        <p className="small">{ran}</p>
      </Notice>
    )
  return (
    <Notice kind="done">
      <p className="strong">All is well: nothing is lost and nothing was changed.</p>
      <p className="small">
        {ran}
        {last.notes > 0 && ` ${plural('harmless thing', last.notes)} stood out.`}
      </p>
    </Notice>
  )
}

/** Every finding with its meaning and what to do, or what mending did. */
export function CheckFindings({ last: { findings, faults, notes } }: { readonly last: Last }) {
  if (findings.length === 0) return null
  const more = faults + notes - findings.filter(({ mended }) => mended?.isMended !== true).length
  return (
    <>
      <ul className={styles.findings} aria-label="What was found">
        {findings.map((finding, index) => (
          <li key={`${index} ${finding.what}`} className={styles.finding}>
            <p className="small strong">{kindWords(finding)}</p>
            <div>
              <p className="strong">{finding.what}</p>
              <p>{finding.meaning}</p>
              <p className="quiet">{finding.mended?.words ?? finding.todo}</p>
            </div>
          </li>
        ))}
      </ul>
      {more > 0 && (
        <p className="quiet">
          And {more} more, which the command line lists: npm run check -- --data and the folder.
        </p>
      )}
    </>
  )
}

const kindWords = ({ severity, mended }: Last['findings'][number]): string =>
  mended?.isMended === true ? 'mended' : severity === 'fault' ? 'fault' : 'harmless'

function tookWords(ms: number): string {
  const seconds = Math.round(ms / 1_000)
  if (seconds < 1) return 'less than a second'
  return seconds < 90 ? plural('second', seconds) : plural('minute', Math.round(seconds / 60))
}
