import type { CarId, EntryId } from '../../../domain/ids.ts'
import type { WatchView } from '../../../domain/views/shared-views.ts'
import { Button } from '../form/button.tsx'
import { RefusalNote } from '../form/notice.tsx'
import { useCommand } from '../form/use-command.ts'
import { useNow } from '../frame/use-now.ts'
import { useWhen } from '../frame/when.tsx'

/** Every fire watch: how long it still runs, or that somebody must look and say that nothing smoulders. */
export function WatchList({ watches }: { readonly watches: readonly WatchView[] }) {
  const command = useCommand()
  if (watches.length === 0) return null
  return (
    <section className="stack-tight">
      <h2 className="minor">Fire watches</h2>
      <ul className="lines">
        {watches.map((watch) => (
          <li key={watch.entryId}>
            <Watch
              watch={watch}
              onComplete={() =>
                void command.send({
                  kind: 'completeWatch',
                  carId: watch.carId as CarId | null,
                  payload: { entryId: watch.entryId as EntryId, note: '' },
                })
              }
            />
          </li>
        ))}
      </ul>
      <RefusalNote refusal={command.refusal} />
      <p className="small quiet">
        Look at the place, behind it and below it, before you say so. Follow the insurer’s and local rules for
        hot work.
      </p>
    </section>
  )
}

const MINUTE_MS = 60_000

function Watch({ watch, onComplete }: { readonly watch: WatchView; readonly onComplete: () => void }) {
  const when = useWhen()
  const now = useNow()
  const left = Math.ceil((watch.ends - now) / MINUTE_MS)
  const total = watch.ends - watch.from
  return (
    <div className="stack-tight">
      <div className="line">
        <span>
          <span className="strong">
            {watch.bay === '' ? watch.carName : `${watch.bay}, ${watch.carName}`}
          </span>{' '}
          <span className="quiet">
            {watch.what}; {watch.person}
          </span>
        </span>
        {left > 0 ? (
          <span>
            <span className="strong">{left} min left</span>{' '}
            <span className="quiet">until {when.time(watch.ends)}</span>
          </span>
        ) : (
          <Button kind="warn" onClick={onComplete}>
            Nothing smoulders
          </Button>
        )}
      </div>
      {left > 0 && (
        <progress
          className="progress"
          max={total}
          value={now - watch.from}
          aria-label={`Fire watch on ${watch.carName}`}
        />
      )}
    </div>
  )
}
