import { plural } from '../../domain/text/words.ts'
import { Button } from '../parts/form/button.tsx'
import type { CopiesState } from './workshop-shapes.ts'
import { UnderWay } from '../parts/frame/under-way.tsx'

/** How far a copy is that is being made or verified, with what stops it. */
export function CopyDoing({
  doing,
  onStop,
}: {
  readonly doing: CopiesState['doing']
  readonly onStop: () => void
}) {
  if (doing.kind === 'nothing') return null
  return (
    <section className="stack-tight">
      <UnderWay
        label={doing.kind === 'copying' ? 'Making a copy' : 'Verifying a copy'}
        done={doing.done}
        of={doing.of}
      >
        {doing.words}
        {doing.of > 0 && ` ${doing.done} of ${plural('file', doing.of)}.`} Everybody goes on working
        meanwhile.
      </UnderWay>
      <div className="button-row">
        <Button onClick={onStop}>Stop</Button>
      </div>
    </section>
  )
}
