import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { z } from 'zod'
import { agreementFacts } from '../../../domain/facts/agreement-facts.ts'
import {
  variationIdSchema,
  type AttachmentId,
  type CarId,
  type RepairId,
  type VariationId,
} from '../../../domain/ids.ts'
import { LOAD_BEARING_AS_FOUND } from '../../../domain/rules/cautions.ts'
import type { PhotoView } from '../../../domain/views/shared-views.ts'
import type { RepairView } from '../../../domain/views/view-shapes.ts'
import { api } from '../../client.ts'
import { Dialog } from '../form/dialog.tsx'
import { CheckField, NoteField, SelectField, type FormControl } from '../form/fields.tsx'
import { Form, useZodForm } from '../form/form.tsx'
import { isSettled } from '../form/settled.ts'
import { useCommand } from '../form/use-command.ts'
import { Loaded } from '../frame/loaded.tsx'
import { Notice } from '../form/notice.tsx'
import { PhotoChoice } from '../photos/photo-choice.tsx'
import { GO_ON_TO_SIGN } from '../sign/sign-request.ts'
import { AsLeftPhotos } from './as-left-photos.tsx'

const schema = agreementFacts.closedAsFound
  .pick({ protection: true, answer: true, cautionShown: true })
  .extend({ variationId: variationIdSchema.nullable() })

type AsFound = z.input<typeof schema>

/** Leaves a repair as it was found: a photo of each layer, what protection was given, the payer's answer. */
export function CloseAsFoundDialog({
  carId,
  repairId,
  variationId = null,
  onClose,
}: {
  readonly carId: CarId
  readonly repairId: RepairId
  /** The declined variation that one comes from. */
  readonly variationId?: VariationId | null
  readonly onClose: () => void
}) {
  const query = useQuery(api.repair.queryOptions({ carId, repairId }))
  return (
    <Dialog title="Close as found" isOpen onClose={onClose} size="wide">
      <Loaded query={query}>
        {(view) => <CloseForm view={view} variationId={variationId} onClose={onClose} />}
      </Loaded>
    </Dialog>
  )
}

function CloseForm({
  view,
  variationId,
  onClose,
}: {
  readonly view: RepairView
  readonly variationId: VariationId | null
  readonly onClose: () => void
}) {
  const command = useCommand()
  const { repair, car } = view
  const asLeft = view.photos.filter(({ serves }) => serves.some(({ shows }) => shows === 'as left'))
  const [picked, setPicked] = useState<readonly AttachmentId[] | null>(null)
  const chosen = picked ?? asLeft.map(({ attachmentId }) => attachmentId)
  const declined = view.variations.filter(({ status }) => status === 'declined' || status === 'stopped')
  const from = declined.find(({ id }) => id === variationId) ?? declined[0]
  const form = useZodForm(schema, {
    protection: '',
    answer: from?.decidedNote ?? '',
    cautionShown: false,
    variationId: from?.id ?? null,
  })

  const submit = async (values: z.output<typeof schema>) => {
    const outcome = await command.send({
      kind: 'closeAsFound',
      carId: car.carId,
      payload: { repairId: repair.id, attachments: [...chosen], ...values },
      sign: {
        title: `Close ${repair.name} as found`,
        says: [
          'It is not put right. This is named in the report and stands in the car’s file.',
          `Protection: ${values.protection}`,
          `Answer of the payer: ${values.answer}`,
        ],
        ...(repair.loadBearing && { cautions: [LOAD_BEARING_AS_FOUND] }),
      },
    })
    if (isSettled(outcome)) onClose()
  }
  return (
    <Form form={form} submit={GO_ON_TO_SIGN} refusal={command.refusal} onCancel={onClose} onSubmit={submit}>
      <p>
        <span className="strong">{repair.name}</span> is left as it was found. It finishes the repair for
        closing in order, but it is no history for estimates. The workshop may also refuse: then settle the
        declined variation as stopped.
      </p>
      <AsLeftPhotos view={view} photos={chosenOf(asLeft, chosen)} />
      <PhotoChoice label="Photos as left" photos={asLeft} chosen={chosen} onChange={setPicked} />
      <NoteField
        control={form.control}
        name="protection"
        label="What protection is given"
        hint="or: none can be given, and why"
      />
      <NoteField control={form.control} name="answer" label="What the payer answered" />
      <SelectField
        control={form.control}
        name="variationId"
        label="Which declined variation"
        choices={declined.map(({ id, title }) => ({ value: id, words: title }))}
        none="none"
      />
      {repair.loadBearing && <LoadBearing control={form.control} />}
    </Form>
  )
}

function LoadBearing({ control }: { readonly control: FormControl<AsFound> }) {
  return (
    <>
      <Notice kind="caution">
        <p className="strong">Load-bearing metal.</p>
        <p>{LOAD_BEARING_AS_FOUND}</p>
      </Notice>
      <CheckField
        control={control}
        name="cautionShown"
        label="I have read this caution and shown it to the payer"
      />
    </>
  )
}

const chosenOf = (photos: readonly PhotoView[], chosen: readonly AttachmentId[]): readonly PhotoView[] =>
  photos.filter(({ attachmentId }) => chosen.includes(attachmentId))
