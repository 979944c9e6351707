import { z } from 'zod'
import { DECISIONS, GRADES } from '../../domain/facts/shapes.ts'
import { workFacts } from '../../domain/facts/work-facts.ts'
import type { LayerId } from '../../domain/ids.ts'
import { mm } from '../../domain/text/words.ts'
import { enteredBefore } from '../outbox/enter-again.ts'
import { asChoices } from '../parts/form/as-choices.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { ChoiceField, NoteField, NumberField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { type Doing, useRepair } from './repair-context.ts'

const { grade, judgedBy, remainingMm, decision } = workFacts.layerGraded.shape
const schema = z
  .object({ grade, judgedBy, remainingMm, decision })
  .refine((layer) => layer.grade !== 'not seen' || layer.judgedBy !== '', {
    error: 'Say how it was judged, for instance: by sound, by camera through the drain hole.',
    path: ['judgedBy'],
  })

/** The grade of one layer and what is done about it; the next layer without a grade follows. */
export function GradeDialog({
  layerId,
  onClose,
}: {
  readonly layerId: LayerId
  readonly onClose: () => void
}) {
  const { view, open } = useRepair()
  const command = useCommand()
  const layer = view.section.layers.find(({ id }) => id === layerId)
  const form = useZodForm(schema, {
    ...(layer && layer.grade !== null && { grade: layer.grade }),
    ...(layer && layer.decision !== null && { decision: layer.decision }),
    judgedBy: layer?.judgedBy ?? '',
    remainingMm: layer?.remainingMm ?? null,
    ...enteredBefore('gradeLayer', ['grade', 'decision', 'judgedBy', 'remainingMm']),
  })
  if (layer === undefined) return null
  const graded = form.watch('grade')
  const following = followingDoing(view.section.layers, layerId)

  return (
    <Dialog title={`${layer.name}, ${mm(layer.thicknessMm)}`} isOpen onClose={onClose}>
      <Form
        form={form}
        submit={following === null ? 'Record it' : 'Record it, next layer'}
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async (values) => {
          const payload = { repairId: view.repair.id, layerId, ...values }
          if (!isSettled(await command.send({ kind: 'gradeLayer', carId: view.car.carId, payload }))) return
          if (following === null) onClose()
          else open(following)
        }}
      >
        <ChoiceField control={form.control} name="grade" label="Grade" choices={GRADE_CHOICES} />
        <ChoiceField control={form.control} name="decision" label="Decision" choices={asChoices(DECISIONS)} />
        {graded === 'not seen' ? (
          <NoteField control={form.control} name="judgedBy" label="How it was judged" />
        ) : (
          <NumberField
            control={form.control}
            name="remainingMm"
            label="Thickness left (may stay empty)"
            unit="mm"
            hint={`new: ${mm(layer.thicknessMm)}; worth reading from 'pitted' on`}
          />
        )}
      </Form>
    </Dialog>
  )
}

const GRADE_CHOICES = asChoices([...GRADES, 'not seen' as const])

function followingDoing(
  layers: ReturnType<typeof useRepair>['view']['section']['layers'],
  layerId: LayerId,
): Doing | null {
  const here = layers.findIndex(({ id }) => id === layerId)
  const next = layers.slice(here + 1).find((layer) => layer.grade === null)
  return next === undefined ? null : { kind: 'grade', layerId: next.id }
}
