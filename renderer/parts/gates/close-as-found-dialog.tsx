import { useQuery } from '@tanstack/react-query'
import { z } from 'zod'
import { noteSchema } from '../../../domain/facts/shapes.ts'
import type { CarId, RepairId } from '../../../domain/ids.ts'
import { LOAD_BEARING_AS_FOUND } from '../../../domain/rules/cautions.ts'
import type { PhotoView, SectionLayer } from '../../../domain/views/shared-views.ts'
import type { RepairView, VariationView } from '../../../domain/views/view-shapes.ts'
import { api } from '../../client.ts'
import { Dialog } from '../form/dialog.tsx'
import { CheckField, NoteField } from '../form/fields.tsx'
import { Form, useZodForm } from '../form/form.tsx'
import { Loaded } from '../frame/loaded.tsx'
import { Notice } from '../form/notice.tsx'
import { PhotoPick } from '../photos/photo-pick.tsx'
import { isSettled } from '../form/settled.ts'
import { useCommand } from '../form/use-command.ts'
import { GO_ON_TO_SIGN } from '../sign/sign-request.ts'

const schema = z.object({
  protection: noteSchema,
  answer: noteSchema,
  cautionShown: z.boolean(),
})

/** Leaves a repair as it was found: a photo of each layer, what protection was given, the payer's answer. */
export function CloseAsFoundDialog({
  carId,
  repairId,
  variation,
  onClose,
}: {
  readonly carId: CarId
  readonly repairId: RepairId
  readonly variation: VariationView | null
  readonly onClose: () => void
}) {
  const query = useQuery(api.repair.queryOptions({ carId, repairId }))
  return (
    <Dialog title="Close as found" isOpen onClose={onClose}>
      <Loaded query={query}>
        {(view) => <CloseForm view={view} variation={variation} onClose={onClose} />}
      </Loaded>
    </Dialog>
  )
}

function CloseForm({
  view,
  variation,
  onClose,
}: {
  readonly view: RepairView
  readonly variation: VariationView | null
  readonly onClose: () => void
}) {
  const command = useCommand()
  const { repair, section, car } = view
  const form = useZodForm(schema, {
    protection: '',
    answer: variation?.decidedNote ?? '',
    cautionShown: false,
  })
  const left = view.photos.filter((photo) => photo.serves.some(({ shows }) => shows === 'as left'))
  const seen = section.layers.filter(({ grade }) => grade !== 'not seen')
  return (
    <Form
      form={form}
      submit={GO_ON_TO_SIGN}
      refusal={command.refusal}
      onCancel={onClose}
      onSubmit={async ({ protection, answer, cautionShown }) => {
        const outcome = await command.send({
          kind: 'closeAsFound',
          carId: car.carId,
          payload: {
            repairId: repair.id,
            variationId: variation?.id ?? null,
            attachments: left.map(({ attachmentId }) => attachmentId),
            protection,
            answer,
            cautionShown: cautionShown || !repair.loadBearing,
          },
          sign: {
            title: `Close ${repair.name} as found`,
            says: [`Left as found; protection: ${protection}`, `Answer: ${answer}`],
            ...(repair.loadBearing && { cautions: [LOAD_BEARING_AS_FOUND] }),
            confirm: 'Close it as found',
          },
        })
        if (isSettled(outcome)) onClose()
      }}
    >
      <p>
        <span className="strong">{repair.name}</span> is left as it was found. It is named so in the report
        and in the car’s file for ever.
      </p>
      {repair.loadBearing && (
        <Notice kind="caution">
          <p className="strong">Load-bearing metal.</p>
          <p>{LOAD_BEARING_AS_FOUND}</p>
        </Notice>
      )}
      <ul className="lines">
        {seen.map((layer) => (
          <li key={layer.id} className="line">
            <span>
              {layer.name}:{' '}
              {isPhotographed(layer, left) ? (
                <span className="is-passed">✓ photo as left</span>
              ) : (
                <span className="is-accent">photo as left needed</span>
              )}
            </span>
            <PhotoPick
              carId={car.carId}
              kind="plain"
              label={`Photo of ${layer.name}`}
              caption={`${layer.name}, as left`}
              serves={[
                {
                  what: 'gate',
                  repairId: repair.id,
                  gate: repair.next ?? 'opened',
                  shows: 'as left',
                  layerId: layer.id,
                },
              ]}
            />
          </li>
        ))}
      </ul>
      <NoteField
        control={form.control}
        name="protection"
        label="What protection was given"
        hint="or: none could be given, and why"
      />
      <NoteField control={form.control} name="answer" label="The payer’s answer" />
      {repair.loadBearing && (
        <CheckField
          control={form.control}
          name="cautionShown"
          label="I have read this caution and shown it to the payer"
        />
      )}
    </Form>
  )
}

const isPhotographed = (layer: SectionLayer, left: readonly PhotoView[]): boolean =>
  left.some((photo) => photo.serves.some(({ layerId, shows }) => layerId === layer.id && shows === 'as left'))
