import { z } from 'zod'
import { costKindSchema } from '../../domain/facts/money-facts.ts'
import { nameSchema, payerSchema } from '../../domain/facts/shapes.ts'
import { type CostId, repairIdSchema, type VisitId } from '../../domain/ids.ts'
import { moneyWords } from '../../domain/text/money-words.ts'
import type { CostView, MoneyView } from '../../domain/views/money-view.ts'
import { asChoices } from '../parts/form/as-choices.ts'
import { WordButton } from '../parts/form/button.tsx'
import { Dialog } from '../parts/form/dialog.tsx'
import { ChoiceField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { minorToMajor, typedMoneySchema } from '../parts/form/money-amount.ts'
import { MoneyField } from '../parts/form/money-field.tsx'
import { newId } from '../parts/form/new-id.ts'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { MoneyWhatFields } from './money-what-fields.tsx'

/** A new money line of the estimate, or new figures of one; the first amount stays readable. */
export function MoneyCostDialog({
  money,
  visitId,
  seen,
  cost,
  onClose,
}: {
  readonly money: MoneyView
  readonly visitId: VisitId
  /** Revision of the car that the screen shows. */
  readonly seen: number
  readonly cost: CostView | null
  readonly onClose: () => void
}) {
  const command = useCommand()
  const { currency, carId, mayPay, repairs } = money
  const schema = z.object({
    name: nameSchema,
    kind: costKindSchema,
    repairId: repairIdSchema.nullable(),
    amount: typedMoneySchema(currency),
    payer: payerSchema,
  })
  const form = useZodForm(schema, {
    name: cost?.name ?? '',
    kind: cost?.kind ?? 'part',
    repairId: cost?.repairId ?? null,
    ...(cost !== null && { amount: minorToMajor(cost.amount, currency) }),
    payer: cost?.payer ?? 'owner',
  })
  const takesOff = cost?.mayTakeOff === true
  const takeOff = async (costId: CostId) => {
    const payload = { visitId, costId }
    if (isSettled(await command.send({ kind: 'takeCostOff', carId, seen, payload }))) onClose()
  }
  return (
    <Dialog title={cost?.name ?? 'Add a cost'} isOpen onClose={onClose}>
      <Form
        form={form}
        submit={cost === null ? 'Add it to the estimate' : 'Set these figures'}
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async (values) => {
          const costs = [{ ...values, costId: cost?.costId ?? newId<CostId>() }]
          const outcome = await command.send({ kind: 'setCosts', carId, seen, payload: { visitId, costs } })
          if (isSettled(outcome)) onClose()
        }}
      >
        <MoneyWhatFields control={form.control} repairs={repairs} isFirst />
        <MoneyField
          control={form.control}
          name="amount"
          label="Estimated"
          currency={currency}
          hint={takesOff || cost === null ? 'Without tax.' : 'Without tax. 0 when it is no longer needed.'}
        />
        <ChoiceField control={form.control} name="payer" label="Who pays" choices={asChoices(mayPay)} />
        {cost !== null && (
          <p className="small quiet">
            First estimate {moneyWords(cost.baseline ?? cost.amount, currency)}.{' '}
            {cost.accepted && 'A changed amount must be accepted again by its payer.'}
            {takesOff && (
              <WordButton onClick={() => void takeOff(cost.costId)}>take it off the estimate</WordButton>
            )}
          </p>
        )}
      </Form>
    </Dialog>
  )
}
