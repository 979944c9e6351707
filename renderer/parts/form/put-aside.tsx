import { useState } from 'react'
import { Button, WordButton } from './button.tsx'

/** Gives up what is kept on this device, after saying what that means. */
export function PutAside({ words, onPutAside }: { readonly words: string; readonly onPutAside: () => void }) {
  const [isAsked, setIsAsked] = useState(false)
  if (!isAsked) return <WordButton onClick={() => setIsAsked(true)}>put it aside</WordButton>
  return (
    <div className="stack-tight">
      <p className="strong">{words} Put it aside for good?</p>
      <div className="row">
        <Button kind="warn" onClick={onPutAside}>
          Put it aside
        </Button>
        <Button onClick={() => setIsAsked(false)}>Keep it</Button>
      </div>
    </div>
  )
}
