import { z } from 'zod'
import { LEAST_DIGITS_OF_MANAGER, MOST_DIGITS } from '../../domain/commands/code-digits.ts'
import { startingCatalogue } from '../../domain/catalogue.ts'
import { commandShapes } from '../../domain/commands/command-shapes.ts'
import { workshopFacts } from '../../domain/facts/workshop-facts.ts'
import { nameSchema } from '../../domain/facts/shapes.ts'
import type { PersonId } from '../../domain/ids.ts'
import { CheckField, SelectField, TextField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { newId } from '../parts/form/new-id.ts'
import { useCommand } from '../parts/form/use-command.ts'

const schema = z
  .object({
    ...workshopFacts.workshopSetUp.shape,
    managerName: nameSchema,
    code: commandShapes.setUpWorkshop.shape.code,
    codeAgain: z.string(),
    alsoWorks: z.boolean(),
    withCatalogue: z.boolean(),
  })
  .refine(({ code, codeAgain }) => code === codeAgain, {
    error: 'The two codes differ; type the same code twice.',
    path: ['codeAgain'],
  })

/** The workshop and its first manager; people, bays and types follow on the Workshop screen. */
export function SetUpForm({ onCancel }: { readonly onCancel: () => void }) {
  const command = useCommand()
  const form = useZodForm(schema, {
    name: '',
    zone: ownZone(),
    currency: 'EUR',
    managerName: '',
    code: '',
    codeAgain: '',
    alsoWorks: true,
    withCatalogue: true,
  })
  return (
    <Form
      form={form}
      submit="Set up the workshop"
      refusal={command.refusal}
      onCancel={onCancel}
      onSubmit={async ({ name, zone, currency, managerName, code, alsoWorks, withCatalogue }) => {
        await command.send({
          kind: 'setUpWorkshop',
          carId: null,
          payload: {
            name,
            zone,
            currency,
            managerId: newId<PersonId>(),
            manager: { name: managerName, phone: '', email: '', address: '' },
            code,
            skills: alsoWorks ? skillsOfCatalogue() : [],
            withCatalogue,
          },
        })
      }}
    >
      <TextField control={form.control} name="name" label="Name of the workshop" isFirst />
      <div className="field-row">
        <SelectField control={form.control} name="zone" label="Time zone" choices={zoneChoices()} />
        <TextField control={form.control} name="currency" label="Currency" hint="three letters, like EUR" />
      </div>
      <div className="field-row">
        <TextField control={form.control} name="managerName" label="Name of the first manager" />
        <TextField
          control={form.control}
          name="code"
          label="The manager’s own code"
          type="password"
          hint={`${LEAST_DIGITS_OF_MANAGER} to ${MOST_DIGITS} digits; it signs gates and releases`}
        />
        <TextField control={form.control} name="codeAgain" label="The code once more" type="password" />
      </div>
      <CheckField
        control={form.control}
        name="alsoWorks"
        label="The manager works on cars too, in every skill"
      />
      <CheckField
        control={form.control}
        name="withCatalogue"
        label="Start with a catalogue of repair types and the usual bays"
        hint="About 20 repair types from all over a shell, with layers, hours and skills; all of it can be changed."
      />
    </Form>
  )
}

function skillsOfCatalogue(): string[] {
  const gates = startingCatalogue.flatMap(({ plan }) => Object.values(plan.gates))
  return [...new Set(gates.map(({ skill }) => skill))]
}

const ownZone = (): string => Intl.DateTimeFormat().resolvedOptions().timeZone

/** With that of this computer, which is 'UTC' where none was set and then not among those of the browser. */
function zoneChoices() {
  return [...new Set([...Intl.supportedValuesOf('timeZone'), ownZone()])].map((value) => {
    const [region = '', ...place] = value.split('/')
    return place.length === 0
      ? { value, words: value, group: 'Other' }
      : { value, words: place.join(', ').replaceAll('_', ' '), group: region }
  })
}
