import { useState } from 'react'
import { fixed, plural } from '../../../domain/text/words.ts'
import type { ClockView } from '../../../domain/views/shared-views.ts'
import { Button } from '../form/button.tsx'
import { Dialog } from '../form/dialog.tsx'
import { ChoiceRow, NumberInput } from '../form/inputs.tsx'
import { Notice, RefusalNote } from '../form/notice.tsx'
import { percentSum, percentToShares, sharesToPercent } from '../form/percent-shares.ts'
import type { CommandState } from '../form/use-command.ts'
import { useWhen } from '../frame/when.tsx'
import { PlainForm } from '../form/form.tsx'

type Way = 'estimates' | 'percent'

/** A clock on several repairs or tasks is stopped: how its hours are shared among them. */
export function ShareHoursDialog({
  clock,
  command,
  onStop,
  onClose,
}: {
  readonly clock: ClockView
  readonly command: CommandState
  /** Null for shares by the estimates. */
  readonly onStop: (shares: readonly number[] | null) => void
  readonly onClose: () => void
}) {
  const when = useWhen()
  const byEstimates = sharesToPercent(clock.parts.map(({ share }) => share))
  const [way, setWay] = useState<Way>('estimates')
  const [percents, setPercents] = useState<readonly (number | null)[]>(byEstimates)
  const [isTried, setIsTried] = useState(false)
  const shares = percentToShares(percents)
  const isWrong = way === 'percent' && shares === null

  return (
    <Dialog title="How the time is shared" isOpen onClose={onClose}>
      <PlainForm
        onSubmit={() => {
          setIsTried(true)
          if (!isWrong) onStop(way === 'percent' ? shares : null)
        }}
      >
        <p>
          {clock.carName}: one clock on {plural('piece', clock.parts.length)} of work since{' '}
          {when.short(clock.since)}.
        </p>
        <ChoiceRow label="Share it" choices={WAYS} value={way} onChange={setWay} />
        <ul className="lines">
          {clock.parts.map(({ words }, index) => (
            <li key={words} className="line">
              <span>{words}</span>
              {way === 'estimates' ? (
                <span className="number">{byEstimates[index]} %</span>
              ) : (
                <NumberInput
                  aria-label={`Percent for ${words}`}
                  unit="%"
                  value={percents[index] ?? null}
                  onChange={(percent) => setPercents(percents.with(index, percent))}
                  aria-invalid={isTried && isWrong}
                />
              )}
            </li>
          ))}
          {way === 'percent' && (
            <li className="line strong">
              <span>in all</span>
              <span className={isWrong ? 'number is-accent' : 'number'}>{percentWords(percents)}</span>
            </li>
          )}
        </ul>
        {isTried && isWrong && (
          <Notice kind="refused">Give a percentage for each, none below 0, that come to 100 % in all.</Notice>
        )}
        <RefusalNote refusal={command.refusal} />
        <div className="button-row end">
          <Button onClick={onClose}>Let it run</Button>
          <Button kind="main" type="submit" aria-busy={command.isBusy}>
            Stop clock
          </Button>
        </div>
      </PlainForm>
    </Dialog>
  )
}

const WAYS: readonly { readonly value: Way; readonly words: string }[] = [
  { value: 'estimates', words: 'by the estimates' },
  { value: 'percent', words: 'in percent' },
]

function percentWords(percents: readonly (number | null)[]): string {
  const sum = percentSum(percents)
  return `${fixed(sum, Number.isInteger(sum) ? 0 : 1)} %`
}
