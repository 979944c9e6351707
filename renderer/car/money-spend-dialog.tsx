import { z } from 'zod'
import { costKindSchema } from '../../domain/facts/money-facts.ts'
import { dateSchema, nameSchema, payerSchema } from '../../domain/facts/shapes.ts'
import { costIdSchema, repairIdSchema, type SpendingId, type VisitId } from '../../domain/ids.ts'
import { moneyWords } from '../../domain/text/money-words.ts'
import type { CostView, MoneyView } from '../../domain/views/money-view.ts'
import { asChoices } from '../parts/form/as-choices.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { ChoiceField, DateField, SelectField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { typedMoneySchema } from '../parts/form/money-amount.ts'
import { MoneyField } from '../parts/form/money-field.tsx'
import { newId } from '../parts/form/new-id.ts'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { useWhen } from '../parts/frame/when.tsx'
import { MoneyWhatFields } from './money-what-fields.tsx'

/** A bill or a take from the shelf, on an agreed line where there is one: the rest of the form then follows from it. */
export function MoneySpendDialog({
  money,
  visitId,
  onClose,
}: {
  readonly money: MoneyView
  readonly visitId: VisitId
  readonly onClose: () => void
}) {
  const when = useWhen()
  const command = useCommand()
  const { currency, carId, mayPay, repairs, costs } = money
  const schema = z.object({
    costId: costIdSchema.nullable(),
    name: nameSchema,
    kind: costKindSchema,
    repairId: repairIdSchema.nullable(),
    date: dateSchema,
    amount: typedMoneySchema(currency),
    payer: payerSchema,
  })
  const form = useZodForm(schema, {
    costId: null,
    name: '',
    kind: 'part',
    repairId: null,
    date: when.today,
    payer: 'owner',
  })
  const follow = (chosen: string) => {
    const cost = costs.find(({ costId }) => costId === chosen)
    if (cost === undefined) return
    form.setValue('name', cost.name)
    form.setValue('kind', cost.kind)
    form.setValue('repairId', cost.repairId)
    form.setValue('payer', cost.payer)
  }
  return (
    <Dialog title="What was spent" isOpen onClose={onClose}>
      <Form
        form={form}
        submit="Enter it"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async (values) => {
          const payload = { ...values, spendingId: newId<SpendingId>(), visitId }
          if (isSettled(await command.send({ kind: 'spendCost', carId, payload }))) onClose()
        }}
      >
        <SelectField
          control={form.control}
          name="costId"
          label="Agreed as"
          none="nothing that was estimated"
          hint="What goes beyond an agreed line is shown as not authorised."
          choices={costs.map((cost) => ({ value: cost.costId, words: lineWords(cost, currency) }))}
          onChosen={follow}
        />
        <MoneyWhatFields control={form.control} repairs={repairs} />
        <div className="field-row">
          <MoneyField
            control={form.control}
            name="amount"
            label="Amount"
            currency={currency}
            hint="Without tax."
          />
          <DateField control={form.control} name="date" label="Day" />
        </div>
        <ChoiceField control={form.control} name="payer" label="Who pays" choices={asChoices(mayPay)} />
      </Form>
    </Dialog>
  )
}

const lineWords = ({ name, amount, accepted }: CostView, currency: string): string =>
  `${name}, ${moneyWords(amount, currency)}${accepted ? '' : ', not accepted yet'}`
