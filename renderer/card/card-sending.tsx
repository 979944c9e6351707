import { Button } from '../parts/form/button.tsx'
import { timeLeftWords } from '../parts/frame/time-left.ts'
import type { Sending } from './use-card.ts'

/** How far the photos are on their way to the host, with a way to stop. */
export function CardSending({ sending, onStop }: { readonly sending: Sending; readonly onStop: () => void }) {
  const { done, count, leftMs, away } = sending
  return (
    <div className="stack-tight" role="status">
      <progress className="progress" max={count} value={done} aria-label="Photos read" />
      <p>
        {away
          ? `The host cannot be reached. ${done} of ${count} read; it goes on by itself when the host is back.`
          : `${done} of ${count} read${leftMs === null || done === count ? '' : `, ${timeLeftWords(leftMs)}`}. Leave the card in.`}
      </p>
      <div className="button-row">
        <Button onClick={onStop}>Stop here</Button>
      </div>
    </div>
  )
}
