import { useQuery } from '@tanstack/react-query'
import { z } from 'zod'
import { ANSWERED_BY } from '../../../domain/facts/agreement-facts.ts'
import { optionalNoteSchema, type Payer } from '../../../domain/facts/shapes.ts'
import { costIdSchema, lineIdSchema, type VisitId } from '../../../domain/ids.ts'
import { moneyWords } from '../../../domain/text/money-words.ts'
import { hours, plural } from '../../../domain/text/words.ts'
import type { CostView } from '../../../domain/views/money-view.ts'
import type { CarView, EstimateLineView } from '../../../domain/views/view-shapes.ts'
import { api } from '../../client.ts'
import { useActor } from '../sign/actor.tsx'
import { asChoices } from '../form/as-choices.ts'
import { WordButton } from '../form/button.tsx'
import { Dialog } from '../form/dialog.tsx'
import { ChoiceField, ManyField, NoteField } from '../form/fields.tsx'
import { Form, useZodForm } from '../form/form.tsx'
import { Loaded } from '../frame/loaded.tsx'
import { EmptyState } from '../form/notice.tsx'
import { isSettled } from '../form/settled.ts'
import { useCommand } from '../form/use-command.ts'
import { GO_ON_TO_SIGN } from '../sign/sign-request.ts'

const schema = z
  .object({
    lineIds: z.array(lineIdSchema),
    costIds: z.array(costIdSchema),
    how: z.enum(ANSWERED_BY),
    note: optionalNoteSchema,
  })
  .refine(({ lineIds, costIds }) => lineIds.length + costIds.length > 0, {
    error: 'Choose what is accepted.',
    path: ['root'],
  })

interface DialogProps {
  readonly view: Pick<CarView, 'header' | 'estimate'>
  readonly payer: Payer
  readonly onClose: () => void
}

/** What a payer has accepted of the estimate, and how they said so. Part of it may be accepted first. */
export function AcceptEstimateDialog({ view, payer, onClose }: DialogProps) {
  const { manager } = useActor()
  const { carId, name, visitId } = view.header
  const money = useQuery({ ...api.carMoney.queryOptions({ carId }), enabled: manager !== null })
  const title = `${name}: the ${payer} accepts`
  const lines = view.estimate.filter((line) => line.payer === payer && !line.accepted)
  const form = (costs: readonly CostView[], currency: string) => {
    const open = costs.filter((cost) => cost.payer === payer && !cost.accepted && cost.variation === null)
    return visitId === null || lines.length + open.length === 0 ? (
      <EmptyState title="Nothing waits">Every line of this payer is accepted already.</EmptyState>
    ) : (
      <AcceptForm
        {...{ view, payer, onClose, title, visitId, lines, currency }}
        costs={manager === null ? null : open}
      />
    )
  }
  return (
    <Dialog title={title} isOpen onClose={onClose} size="wide">
      {manager === null ? (
        form([], '')
      ) : (
        <Loaded query={money}>{({ costs, currency }) => form(costs, currency)}</Loaded>
      )}
    </Dialog>
  )
}

function AcceptForm({
  view,
  payer,
  title,
  visitId,
  lines,
  costs,
  currency,
  onClose,
}: DialogProps & {
  readonly title: string
  readonly visitId: VisitId
  readonly lines: readonly EstimateLineView[]
  /** Null while no manager is signed in. */
  readonly costs: readonly CostView[] | null
  readonly currency: string
}) {
  const command = useCommand()
  const form = useZodForm(schema, {
    lineIds: lines.map(({ lineId }) => lineId),
    costIds: costs?.map(({ costId }) => costId) ?? [],
    how: 'letter',
    note: '',
  })
  const [lineIds, costIds] = form.watch(['lineIds', 'costIds'])
  const ofHours = hours(
    sum(lines.filter(({ lineId }) => lineIds.includes(lineId)).map(({ agreed }) => agreed)),
  )
  const ofCosts = (chosen: readonly string[]) =>
    moneyWords(
      sum((costs ?? []).filter(({ costId }) => chosen.includes(costId)).map(({ amount }) => amount)),
      currency,
    )
  return (
    <Form
      form={form}
      submit={GO_ON_TO_SIGN}
      refusal={command.refusal}
      onCancel={onClose}
      onSubmit={async (values) => {
        const { how, note } = values
        const says = [
          ...(values.lineIds.length === 0
            ? []
            : [`${plural('line', values.lineIds.length)} of the estimate, ${ofHours}`]),
          ...(values.costIds.length === 0
            ? []
            : [`${plural('cost', values.costIds.length)} of the estimate, ${ofCosts(values.costIds)}`]),
          `Answered by ${how}`,
          ...(note === '' ? [] : [note]),
        ]
        const outcome = await command.send({
          kind: 'acceptEstimate',
          carId: view.header.carId,
          payload: { visitId, payer, ...values },
          sign: { title, says },
        })
        if (isSettled(outcome)) onClose()
      }}
    >
      <ChoiceField
        control={form.control}
        name="how"
        label="How the answer came"
        choices={asChoices(ANSWERED_BY)}
      />
      {lines.length > 0 && (
        <ManyField
          control={form.control}
          name="lineIds"
          label={`What is accepted: ${ofHours}`}
          choices={lines.map(({ lineId, what, agreed }) => ({
            value: lineId,
            words: `${what}, ${hours(agreed)}`,
          }))}
        />
      )}
      {costs === null && <AskForCosts />}
      {costs !== null && costs.length > 0 && (
        <ManyField
          control={form.control}
          name="costIds"
          label={`Parts, materials and outside work: ${ofCosts(costIds)}`}
          choices={costs.map(({ costId, name, amount }) => ({
            value: costId,
            words: `${name}, ${moneyWords(amount, currency)}`,
          }))}
        />
      )}
      <NoteField control={form.control} name="note" label="Note (may stay empty)" />
    </Form>
  )
}

/** Figures of money are for managers; the hours can be accepted without them. */
function AskForCosts() {
  const { askManager } = useActor()
  return (
    <p className="small">
      Costs are shown to managers only.{' '}
      <WordButton onClick={() => void askManager()}>sign in to accept them too</WordButton>
    </p>
  )
}

const sum = (figures: readonly number[]): number => figures.reduce((total, figure) => total + figure, 0)
