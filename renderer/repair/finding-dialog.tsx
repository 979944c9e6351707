import { useState } from 'react'
import { FINDING_KINDS, GRADES } from '../../domain/facts/shapes.ts'
import { workFacts } from '../../domain/facts/work-facts.ts'
import type { AttachmentId, FindingId } from '../../domain/ids.ts'
import { enteredBefore } from '../outbox/enter-again.ts'
import { asChoices } from '../parts/form/as-choices.ts'
import { Button } from '../parts/form/button.tsx'
import { Dialog } from '../parts/form/dialog.tsx'
import { ChoiceField, NoteField, SelectField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { newId } from '../parts/form/new-id.ts'
import { PhotoChoice } from '../parts/photos/photo-choice.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { usePhotoInputs } from '../parts/photos/use-photo-inputs.tsx'
import { gatePhoto } from '../parts/photos/photo-aim.ts'
import { TakenStrip } from '../parts/photos/taken-strip.tsx'
import { photoWork } from './asks.ts'
import { useRepair } from './repair-context.ts'

const schema = workFacts.findingAdded.pick({
  layerId: true,
  kind: true,
  grade: true,
  extent: true,
  needs: true,
})

/** Damage that was not in the estimate, with its photos: taken now, or chosen from those that are there. */
export function FindingDialog({ onClose }: { readonly onClose: () => void }) {
  const { view } = useRepair()
  const command = useCommand()
  const [findingId] = useState(() => newId<FindingId>())
  const [chosen, setChosen] = useState<readonly AttachmentId[]>(
    () => enteredBefore('addFinding', ['attachments']).attachments ?? [],
  )
  const photos = usePhotoInputs(view.car.carId, (ids) => setChosen((before) => [...before, ...ids]))
  const form = useZodForm(schema, {
    layerId: null,
    kind: 'corrosion',
    extent: '',
    needs: '',
    ...enteredBefore('addFinding', ['layerId', 'kind', 'grade', 'extent', 'needs']),
  })
  const layerId = form.watch('layerId')
  const gate = view.next?.gate ?? 'painted'
  return (
    <Dialog title="Add a finding" isOpen onClose={onClose} size="wide">
      <Form
        form={form}
        submit="Add it"
        refusal={command.refusal ?? photos.refusal}
        onCancel={onClose}
        onSubmit={async (finding) => {
          const payload = {
            findingId,
            repairId: view.repair.id,
            ...finding,
            attachments: [...chosen],
          }
          if (isSettled(await command.send({ kind: 'addFinding', carId: view.car.carId, payload }))) onClose()
        }}
      >
        <div className="button-row">
          <Button
            onClick={() =>
              photos.take({
                serves: [gatePhoto(view.repair.id, gate, layerId === null ? 'work' : 'layer', layerId)],
                caption: '',
              })
            }
          >
            {photos.hasCamera ? 'Take a photo of it' : 'Add photos of it'}
          </Button>
        </div>
        {photos.inputs}
        <TakenStrip carId={view.car.carId} repair={photoWork(view)} />
        {view.photos.length > 0 && (
          <PhotoChoice label="Photos of it" photos={view.photos} chosen={chosen} onChange={setChosen} />
        )}
        <ChoiceField
          control={form.control}
          name="kind"
          label="What it is"
          choices={asChoices(FINDING_KINDS)}
        />
        <ChoiceField control={form.control} name="grade" label="Grade" choices={asChoices(GRADES)} />
        <SelectField
          control={form.control}
          name="layerId"
          label="On which layer"
          choices={view.section.layers.map(({ id, name }) => ({ value: id, words: name }))}
          none="none in particular"
        />
        <NoteField
          control={form.control}
          name="extent"
          label="How far it goes"
          hint="for instance: 120 mm along the lower flange"
        />
        <NoteField
          control={form.control}
          name="needs"
          label="What it needs"
          hint="the manager raises a variation from it"
        />
      </Form>
    </Dialog>
  )
}
