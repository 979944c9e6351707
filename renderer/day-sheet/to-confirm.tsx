import { useState } from 'react'
import type { ClockView } from '../../domain/views/shared-views.ts'
import { Button } from '../parts/form/button.tsx'
import { Notice } from '../parts/form/notice.tsx'
import { onDemand } from '../parts/frame/on-demand.tsx'
import { useWhen } from '../parts/frame/when.tsx'

const ConfirmClockDialog = onDemand(
  async () => (await import('../parts/clock/confirm-clock-dialog.tsx')).ConfirmClockDialog,
)

/** Clocks that ran past the end of the day: real overtime is confirmed, not retyped. */
export function ToConfirm({ clocks }: { readonly clocks: readonly ClockView[] }) {
  const when = useWhen()
  const [open, setOpen] = useState<ClockView | null>(null)
  if (clocks.length === 0) return null
  return (
    <>
      {clocks.map((clock) => (
        <Notice key={clock.entryId} kind="held">
          <div className="spread">
            <p>
              <span className="strong">Confirm when you stopped:</span> {clock.what}, from{' '}
              {when.dayAndTime(clock.since)}. It counts to {when.time(clock.countsTo)} for now.
            </p>
            <Button onClick={() => setOpen(clock)}>Confirm</Button>
          </div>
        </Notice>
      ))}
      {open !== null && <ConfirmClockDialog clock={open} onClose={() => setOpen(null)} />}
    </>
  )
}
