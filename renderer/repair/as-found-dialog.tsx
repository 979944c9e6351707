import { useState } from 'react'
import type { z } from 'zod'
import { agreementFacts } from '../../domain/facts/agreement-facts.ts'
import { variationIdSchema, type AttachmentId } from '../../domain/ids.ts'
import { LOAD_BEARING_AS_FOUND } from '../../domain/rules/cautions.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { CheckField, NoteField, SelectField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { Notice } from '../parts/form/notice.tsx'
import { PhotoChoice } from '../parts/photos/photo-choice.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { TakenStrip } from '../parts/photos/taken-strip.tsx'
import { AsLeftPhotos } from './as-left-photos.tsx'
import { photoWork } from './asks.ts'
import { useRepair } from './repair-context.ts'
import { GO_ON_TO_SIGN } from '../parts/sign/sign-request.ts'

const schema = agreementFacts.closedAsFound
  .pick({ protection: true, answer: true, cautionShown: true })
  .extend({ variationId: variationIdSchema.nullable() })

/** Work that its payer declined: a photo of each layer as left, what protects it, and the answer. */
export function AsFoundDialog({ onClose }: { readonly onClose: () => void }) {
  const { view } = useRepair()
  const command = useCommand()
  const { loadBearing, name } = view.repair
  const asLeft = view.photos.filter(({ serves }) => serves.some(({ shows }) => shows === 'as left'))
  const [picked, setPicked] = useState<readonly AttachmentId[] | null>(null)
  const chosen = picked ?? asLeft.map(({ attachmentId }) => attachmentId)
  const declined = view.variations.filter(({ status }) => status === 'declined' || status === 'stopped')
  const form = useZodForm(schema, {
    protection: '',
    answer: '',
    cautionShown: false,
    variationId: declined[0]?.id ?? null,
  })
  const title = `Close ${name} as found`

  const submit = async (values: z.output<typeof schema>) => {
    const outcome = await command.send({
      kind: 'closeAsFound',
      carId: view.car.carId,
      payload: { repairId: view.repair.id, attachments: [...chosen], ...values },
      sign: {
        title,
        says: [
          'It is not put right. This is named in the report and stands in the car’s file.',
          `Protection: ${values.protection}`,
          `Answer of the payer: ${values.answer}`,
        ],
        ...(loadBearing && { cautions: [LOAD_BEARING_AS_FOUND] }),
      },
    })
    if (isSettled(outcome)) onClose()
  }
  return (
    <Dialog title={title} isOpen onClose={onClose} size="wide">
      <Form form={form} submit={GO_ON_TO_SIGN} refusal={command.refusal} onCancel={onClose} onSubmit={submit}>
        <p>
          It finishes the repair for closing in order, but it is no history for estimates. The workshop may
          also refuse: then settle the declined variation as stopped.
        </p>
        <AsLeftPhotos />
        <TakenStrip carId={view.car.carId} repair={photoWork(view)} />
        <PhotoChoice label="Photos as left" photos={asLeft} chosen={chosen} onChange={setPicked} />
        <NoteField control={form.control} name="protection" label="What protection is given" />
        <NoteField control={form.control} name="answer" label="What the payer answered" />
        <SelectField
          control={form.control}
          name="variationId"
          label="Which declined variation"
          choices={declined.map(({ id, title: words }) => ({ value: id, words }))}
          none="none"
        />
        {loadBearing && (
          <>
            <Notice kind="caution">
              <p>{LOAD_BEARING_AS_FOUND}</p>
            </Notice>
            <CheckField
              control={form.control}
              name="cautionShown"
              label="I have read this caution and shown it to the payer"
            />
          </>
        )}
      </Form>
    </Dialog>
  )
}
