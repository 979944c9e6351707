import type { VariationView } from '../../../domain/views/view-shapes.ts'
import { useActor } from '../sign/actor.tsx'
import { WordButton } from '../form/button.tsx'

/** The letter to the payer, for managers: with a form for the answer, or with the answer that was given. */
export function PrintVariation({ variation }: { readonly variation: VariationView }) {
  const { manager, askManager } = useActor()
  const { id, carId, title, payer } = variation
  const words = payer === 'workshop' ? 'print it' : `print it for the ${payer}`
  if (manager === null) return <WordButton onClick={() => void askManager()}>sign in to {words}</WordButton>
  return (
    <p className="row">
      <a className="reaching" href={`/variations/${carId}/${id}.pdf`} target="_blank" rel="noreferrer">
        {words}
        <span className="hidden-word">: {title}</span>
      </a>
      <a className="reaching" href={`/variations/${carId}/${id}.json`} download>
        save it as data
        <span className="hidden-word">: {title}</span>
      </a>
    </p>
  )
}
