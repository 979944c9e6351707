import { plural } from '../../domain/text/words.ts'
import { Button } from '../parts/form/button.tsx'
import { useNow } from '../parts/frame/use-now.ts'
import type { CheckState } from './workshop-shapes.ts'
import { UnderWay } from '../parts/frame/under-way.tsx'

type Doing = Exclude<CheckState['doing'], { readonly kind: 'nothing' }>
type Parts = Extract<Doing, { readonly kind: 'mending' }>['parts']

/** How far the check or the mending is, and how long it will still take. */
export function CheckDoing({ doing, onStop }: { readonly doing: Doing; readonly onStop: () => void }) {
  const now = useNow(1_000)
  const { parts } = doing
  return (
    <div className="stack-tight">
      <UnderWay
        label={doing.kind === 'mending' ? 'Mending' : 'Checking'}
        done={parts?.done}
        of={parts?.count}
      >
        {doing.kind === 'mending' ? 'Mending what was found.' : doing.words}
        {parts !== null && ` ${parts.done} of ${parts.count}${leftWords(parts, now)}.`}
      </UnderWay>
      {doing.kind === 'checking' && (
        <div className="button-row">
          <Button onClick={onStop}>Stop the check</Button>
        </div>
      )}
    </div>
  )
}

/** By how long the part took up to now; nothing while that says too little. */
function leftWords({ since, done, count }: Parts, now: number): string {
  const took = now - since
  if (done < 10 || took < 2_000) return ''
  const minutes = ((took / done) * (count - done)) / 60_000
  return minutes < 1 ? ', less than a minute left' : `, about ${plural('minute', Math.ceil(minutes))} left`
}
