import { WordButton } from '../parts/form/button.tsx'
import { useActor } from '../parts/sign/actor.tsx'

/** What can be done in the drawing, said where the answer will stand. */
export function CarryHint({ canChange }: { readonly canChange: boolean }) {
  const { askManager } = useActor()
  return (
    <div className="quiet">
      <p>
        Choose a block to see what it is, who does it, and why it starts when it does. By the keys: arrows go
        from block to block, Enter chooses, + and − zoom, 0 comes back to today.
      </p>
      {canChange ? (
        <p>
          Drag a car to another bay or day, or press the space bar on it: what would come of it is shown here
          before it is put down.
        </p>
      ) : (
        <p>
          The plan is changed by a manager.{' '}
          <WordButton onClick={() => void askManager()}>Sign in to change it</WordButton>
        </p>
      )}
    </div>
  )
}
