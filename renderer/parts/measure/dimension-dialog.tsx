import { z } from 'zod'
import { carFacts } from '../../../domain/facts/car-facts.ts'
import type { CarId, ReadingId } from '../../../domain/ids.ts'
import { compareDimension } from '../../../domain/measure/dimensions.ts'
import { mm } from '../../../domain/text/words.ts'
import type { DimensionView } from '../../../domain/views/view-shapes.ts'
import { Dialog } from '../form/dialog.tsx'
import { NumberField } from '../form/fields.tsx'
import { standingWords } from './fixtures.ts'
import { Form, useZodForm } from '../form/form.tsx'
import { Measured } from './measured.tsx'
import { newId } from '../form/new-id.ts'
import { isSettled } from '../form/settled.ts'
import { useCommand } from '../form/use-command.ts'
import { StoodFields } from './stood-fields.tsx'

const { mm: millimetres, stood, doorsHung } = carFacts.dimensionRead.shape
const schema = z.object({ mm: millimetres, stood, doorsHung })

/** One reading of a reference dimension; the drift from its target shows while it is typed. */
export function DimensionDialog({
  carId,
  dimension,
  onClose,
}: {
  readonly carId: CarId
  readonly dimension: DimensionView
  readonly onClose: () => void
}) {
  const command = useCommand()
  const { asFoundStood, asFoundDoorsHung, targetMm, limitMm } = dimension
  const form = useZodForm(schema, {
    mm: null as unknown as number,
    stood: asFoundStood,
    doorsHung: asFoundDoorsHung,
  })
  const typed = form.watch()
  return (
    <Dialog title={dimension.name} isOpen onClose={onClose}>
      <Form
        form={form}
        submit="Record it"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async (reading) => {
          const payload = { readingId: newId<ReadingId>(), dimensionId: dimension.id, ...reading }
          if (isSettled(await command.send({ kind: 'readDimension', carId, payload }))) onClose()
        }}
      >
        <p className="quiet">
          Target {mm(targetMm)}, within {mm(limitMm)} either way. As found {mm(dimension.asFoundMm)},{' '}
          {standingWords[asFoundStood]} {asFoundDoorsHung ? 'with doors hung' : 'without doors'}: only like is
          compared with like.
        </p>
        <NumberField control={form.control} name="mm" label="Reading" unit="mm" />
        <DriftWords dimension={dimension} typed={typed} />
        <StoodFields control={form.control} />
      </Form>
    </Dialog>
  )
}

function DriftWords({
  dimension,
  typed,
}: {
  readonly dimension: DimensionView
  readonly typed: z.input<typeof schema>
}) {
  const parsed = schema.safeParse(typed)
  if (!parsed.success) return <Measured isInside={null} words="not read yet" />
  const { asFoundMm, asFoundStood, asFoundDoorsHung, targetMm, limitMm } = dimension
  const compared = compareDimension(
    { asFound: { mm: asFoundMm, stood: asFoundStood, doorsHung: asFoundDoorsHung }, targetMm, limitMm },
    parsed.data,
  )
  return compared.kind === 'comparable' ? (
    <Measured isInside={compared.inside} words={compared.words} />
  ) : (
    <Measured isInside={false} words={compared.reason} />
  )
}
