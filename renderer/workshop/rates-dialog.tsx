import { z } from 'zod'
import { dateSchema } from '../../domain/facts/shapes.ts'
import type { RatesView } from '../../domain/views/money-view.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { DateField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { minorToMajor, typedMoneySchema } from '../parts/form/money-amount.ts'
import { MoneyField } from '../parts/form/money-field.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { useWhen } from '../parts/frame/when.tsx'

/** New rates from a day on: the usual one, and those of skills that are charged otherwise. */
export function RatesDialog({ view, onClose }: { readonly view: RatesView; readonly onClose: () => void }) {
  const when = useWhen()
  const command = useCommand()
  const { currency, tables } = view
  const rate = typedMoneySchema(currency)
  const schema = z.object({
    from: dateSchema,
    usual: rate,
    bySkill: z.array(z.object({ skill: z.string(), perHour: rate.nullable() })),
  })
  const start = tables.find(({ standing }) => standing === 'in force') ?? tables[0]
  const skills = [...new Set([...view.skills, ...(start?.bySkill.map(({ skill }) => skill) ?? [])])]
  const shown = (amount: number | undefined) => (amount === undefined ? null : minorToMajor(amount, currency))
  const form = useZodForm(schema, {
    from: when.today,
    ...(start !== undefined && { usual: minorToMajor(start.usual, currency) }),
    bySkill: skills.map((skill) => ({
      skill,
      perHour: shown(start?.bySkill.find((each) => each.skill === skill)?.perHour),
    })),
  })
  const from = form.watch('from')
  return (
    <Dialog title="Set rates" isOpen onClose={onClose}>
      <Form
        form={form}
        submit="Set these rates"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async ({ bySkill, ...values }) => {
          const own = bySkill.flatMap(({ skill, perHour }) => (perHour === null ? [] : [{ skill, perHour }]))
          const payload = { ...values, bySkill: own }
          if (isSettled(await command.send({ kind: 'setRates', carId: null, payload }))) onClose()
        }}
      >
        <div className="field-row">
          <DateField control={form.control} name="from" label="From" />
          <MoneyField
            control={form.control}
            name="usual"
            label="Usual rate"
            currency={currency}
            per="hour"
            hint="For every skill without a rate of its own. Without tax."
          />
        </div>
        <p className="small">{reachWords(from, when.today, tables)}</p>
        {skills.length > 0 && (
          <fieldset className="field">
            <legend>Skills that are charged otherwise</legend>
            <div className="hint">Empty: the usual rate.</div>
            <div className="field-row">
              {skills.map((skill, index) => (
                <MoneyField
                  key={skill}
                  control={form.control}
                  name={`bySkill.${index}.perHour`}
                  label={skill}
                  currency={currency}
                  per="hour"
                />
              ))}
            </div>
          </fieldset>
        )}
      </Form>
    </Dialog>
  )
}

function reachWords(from: string | null, today: string, tables: RatesView['tables']): string {
  const replaced = tables.some((table) => table.from === from)
    ? 'They take the place of the rates that are set from this day. '
    : ''
  return from !== null && from < today
    ? `${replaced}Hours worked and accepted since then are reckoned anew.`
    : `${replaced}Days before keep their rates.`
}
