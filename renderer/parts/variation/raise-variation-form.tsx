import { useQuery } from '@tanstack/react-query'
import { PAYERS } from '../../../domain/facts/shapes.ts'
import { type Gate, GATES } from '../../../domain/gates.ts'
import type { CarId, CostId, RepairId, VariationId } from '../../../domain/ids.ts'
import { minorDigits } from '../../../domain/text/money-words.ts'
import type { VariationDraft } from '../../../domain/views/variation-draft.ts'
import type { RepairView } from '../../../domain/views/view-shapes.ts'
import { api } from '../../client.ts'
import { useActor } from '../sign/actor.tsx'
import { moneyRange, moreWords, rangeWords } from '../hours/band-words.ts'
import { CostRows } from './cost-rows.tsx'
import { asChoices } from '../form/as-choices.ts'
import { ChoiceField, NoteField, TextField } from '../form/fields.tsx'
import { FindingChoice } from './finding-choice.tsx'
import { Form, useZodForm } from '../form/form.tsx'
import { HoursBandTable } from './hours-band-table.tsx'
import { Loaded } from '../frame/loaded.tsx'
import { newId } from '../form/new-id.ts'
import { Notice } from '../form/notice.tsx'
import { PhotoChoice } from '../photos/photo-choice.tsx'
import { isSettled } from '../form/settled.ts'
import { useCommand } from '../form/use-command.ts'
import styles from './variation-form.module.css'
import { hoursToLines, noBand, raiseSchema, totalsOf } from './variation-values.ts'

interface RaiseProps {
  readonly carId: CarId
  readonly repairId: RepairId
  readonly onClose: () => void
}

/** Extra or less work on one repair, drafted from what was found on it, for the manager to change and raise. */
export function RaiseVariationForm({ carId, repairId, onClose }: RaiseProps) {
  const repair = useQuery(api.repair.queryOptions({ carId, repairId }))
  // What is typed stays: the draft fills the form once, and is not read again while it is open.
  const draft = useQuery(
    api.variationDraft.queryOptions({ carId, repairId }, { staleTime: Infinity, gcTime: 0 }),
  )
  return (
    <Loaded query={repair}>
      {(view) => (
        <Loaded query={draft}>{(read) => <RaiseForm view={view} draft={read} onClose={onClose} />}</Loaded>
      )}
    </Loaded>
  )
}

function RaiseForm({
  view,
  draft,
  onClose,
}: {
  readonly view: RepairView
  readonly draft: VariationDraft
  readonly onClose: () => void
}) {
  const command = useCommand()
  const { currency } = useActor().session
  const form = useZodForm(raiseSchema(currency), valuesOf(draft))
  const { control } = form
  const [hours, costs, attachments] = form.watch(['hours', 'costs', 'attachments'])
  const hoursError = form.formState.errors.hours
  return (
    <Form
      form={form}
      submit="Raise it"
      refusal={command.refusal}
      onCancel={onClose}
      onSubmit={async ({ hours: typed, costs: kept, ...rest }) => {
        const repairId = view.repair.id
        const payload = {
          variationId: newId<VariationId>(),
          visitId: view.car.visitId ?? view.visitId,
          ...rest,
          lines: hoursToLines(typed, repairId),
          costs: kept.map((cost) => ({ ...cost, repairId })),
        }
        if (isSettled(await command.send({ kind: 'raiseVariation', carId: view.car.carId, payload })))
          onClose()
      }}
    >
      {draft.beyond !== null && (
        <Notice>
          <p>
            {draft.beyond.words} This is drafted from what was found: change what you like. Nothing is raised
            by itself.
          </p>
        </Notice>
      )}
      <TextField control={control} name="title" label="What it is about" isFirst />
      <ChoiceField control={control} name="payer" label="Who decides" choices={asChoices(PAYERS)} />
      <FindingChoice control={control} findings={view.findings} />
      <NoteField control={control} name="why" label="Why" hint="The payer reads this." />
      <NoteField control={control} name="ifNot" label="What happens if it is not done (may stay empty)" />
      <HoursBandTable
        control={control}
        first={gatesThatMatter(view, draft)}
        error={hoursError?.message ?? hoursError?.root?.message}
      />
      <CostRows control={control} currency={currency} />
      <Totals hours={hours} costs={costs} draft={draft} currency={currency} />
      <PhotoChoice
        label="Photos for the payer"
        photos={view.photos}
        chosen={view.photos.map(({ attachmentId }) => attachmentId).filter((id) => attachments.includes(id))}
        onChange={(chosen) => form.setValue('attachments', [...chosen])}
      />
    </Form>
  )
}

type TypedValues = Parameters<typeof totalsOf>[0]

/** What all of it comes to, while it is typed. */
function Totals({
  hours,
  costs,
  draft,
  currency,
}: {
  readonly hours: TypedValues
  readonly costs: readonly { readonly amount?: number | null }[]
  readonly draft: VariationDraft
  readonly currency: string
}) {
  const { band, labour } = totalsOf(hours, draft.perHour)
  const major = costs.reduce((sum, { amount }) => sum + (Number.isFinite(amount) ? (amount ?? 0) : 0), 0)
  const goods = Math.round(major * 10 ** minorDigits(currency))
  const whole = { low: goods, likely: goods, high: goods }
  const money =
    labour === null
      ? whole
      : { low: labour.low + goods, likely: labour.likely + goods, high: labour.high + goods }
  return (
    <div className={styles.totals} role="status">
      <p>
        <span className="small quiet">hours in all</span>
        <span className="figure">{moreWords(band.likely)}</span>
        <span className="small">{rangeWords(band)}</span>
      </p>
      {(labour !== null || goods > 0) && (
        <p>
          <span className="small quiet">
            {labour === null ? 'costs in all, without the hours' : 'money in all'}
          </span>
          <span className="strong">{moneyRange(money, currency)}</span>
          <span className="small quiet">
            {labour === null ? '' : 'hours at the rates of today; '}without tax
          </span>
        </p>
      )}
    </div>
  )
}

const valuesOf = ({ payer, title, why, ifNot, findings, attachments, lines, parts }: VariationDraft) => ({
  payer,
  title,
  why,
  ifNot,
  findings: [...findings],
  attachments: [...attachments],
  hours: Object.fromEntries(
    GATES.map((gate) => [gate, lines.find((line) => line.gate === gate) ?? noBand]),
  ) as Record<Gate, typeof noBand>,
  costs: parts.map((name) => ({ costId: newId<CostId>(), kind: 'part' as const, name })),
})

/** Those of the draft; without any, those where most of the hours go that are still to be done, or went. */
function gatesThatMatter({ gates }: RepairView, { lines }: VariationDraft): readonly Gate[] {
  if (lines.length > 0) return lines.map(({ gate }) => gate)
  const open = gates.filter(({ mark }) => mark.mark !== 'passed' && mark.mark !== 'not needed')
  return (open.length > 0 ? open : gates)
    .toSorted((a, b) => b.plan.hours.likely - a.plan.hours.likely)
    .slice(0, 3)
    .map(({ gate }) => gate)
}
