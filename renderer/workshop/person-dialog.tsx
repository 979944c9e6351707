import { useState } from 'react'
import { useWatch } from 'react-hook-form'
import { z } from 'zod'
import {
  LEAST_DIGITS,
  LEAST_DIGITS_OF_MANAGER,
  MOST_DIGITS,
  leastDigits,
} from '../../domain/commands/code-digits.ts'
import { codeSchema, contactSchema } from '../../domain/commands/command-shapes.ts'
import type { WorkingWeek } from '../../domain/facts/shapes.ts'
import { workshopFacts } from '../../domain/facts/workshop-facts.ts'
import type { PersonId } from '../../domain/ids.ts'
import { asChoices } from '../parts/form/as-choices.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { CheckField, ManyField, TextField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { newId } from '../parts/form/new-id.ts'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { AbsenceFields } from './absence-fields.tsx'
import { OwnWeek } from './own-week.tsx'
import { weekProblem } from './week-problem.ts'
import { WordsField } from './words-field.tsx'
import type { WorkshopPerson } from './workshop-shapes.ts'

const { roles, skills, absences } = workshopFacts.personAdded.shape
const schema = z.object({
  contact: contactSchema,
  roles,
  skills,
  absences,
  active: z.boolean(),
  /** Counts only where it is asked for. */
  code: z.string(),
})
type Values = z.output<typeof schema>

/** Who is added chooses a first code there and then; who becomes a manager a new one, as the old one may be short. */
const asksForCode = (person: WorkshopPerson | null, values: Pick<Values, 'roles'>): boolean =>
  person === null || (values.roles.includes('manager') && !person.roles.includes('manager'))

const isCodeFor = ({ code, roles }: Values): boolean =>
  codeSchema.safeParse(code).success && code.length >= leastDigits(roles)

const schemaFor = (person: WorkshopPerson | null) =>
  schema.refine((values) => !asksForCode(person, values) || isCodeFor(values), {
    path: ['code'],
    error: `A code has ${LEAST_DIGITS} to ${MOST_DIGITS} digits, a manager's ${LEAST_DIGITS_OF_MANAGER} or more.`,
  })

const NOBODY = { name: '', phone: '', email: '' as const, address: '' }

/** One person: how to reach them, what they do and can, when they work and when they are away. */
export function PersonDialog({
  person,
  workshopWeek,
  skills: known,
  onClose,
}: {
  /** Null to add one. */
  readonly person: WorkshopPerson | null
  readonly workshopWeek: WorkingWeek
  readonly skills: readonly string[]
  readonly onClose: () => void
}) {
  const command = useCommand()
  const [personId] = useState(() => person?.id ?? newId<PersonId>())
  const [week, setWeek] = useState(person?.week ?? null)
  const form = useZodForm(schemaFor(person), {
    contact: person?.contact ?? { ...NOBODY, name: person?.name ?? '' },
    roles: [...(person?.roles ?? ['technician' as const])],
    skills: [...(person?.skills ?? [])],
    absences: person?.absences.map((each) => ({ ...each })) ?? [],
    active: person?.active ?? true,
    code: '',
  })
  const chosenRoles = useWatch({ control: form.control, name: 'roles' })
  const isAskedForCode = asksForCode(person, { roles: chosenRoles })
  const submit = async ({ contact, code, active, ...values }: Values) => {
    if (week !== null && weekProblem(week) !== null) return
    const payload = { personId, ...values, week: week === null ? null : [...week], contact }
    const outcome =
      person === null
        ? await command.send({ kind: 'addPerson', carId: null, payload: { ...payload, code } })
        : await command.send({
            kind: 'changePerson',
            carId: null,
            payload: { ...payload, active, newCode: isAskedForCode ? code : undefined },
          })
    if (isSettled(outcome)) onClose()
  }
  return (
    <Dialog title={person?.name ?? 'Add a person'} isOpen onClose={onClose} size="wide">
      <Form
        form={form}
        submit={person === null ? 'Add this person' : 'Keep the changes'}
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={submit}
      >
        <div className="field-row">
          <TextField control={form.control} name="contact.name" label="Name" isFirst={person === null} />
          <TextField control={form.control} name="contact.phone" label="Phone" type="tel" />
          <TextField control={form.control} name="contact.email" label="E-mail" type="email" />
          <TextField control={form.control} name="contact.address" label="Address" />
        </div>
        <ManyField
          control={form.control}
          name="roles"
          label="Role"
          hint="One person may hold both."
          choices={asChoices(['manager', 'technician'])}
        />
        <WordsField
          control={form.control}
          name="skills"
          label="Skills"
          hint="A gate is signed by somebody with the skill it needs."
          known={known}
          another="Another skill"
        />
        {isAskedForCode && (
          <TextField
            control={form.control}
            name="code"
            label={person === null ? 'First code' : 'New code, as a manager'}
            type="password"
            autoComplete="new-password"
            hint={`${LEAST_DIGITS} to ${MOST_DIGITS} digits, a manager’s ${LEAST_DIGITS_OF_MANAGER} or more. It can be set anew at any time.`}
          />
        )}
        <OwnWeek week={week} workshopWeek={workshopWeek} onChange={setWeek} />
        <AbsenceFields form={form} />
        {person !== null && (
          <CheckField
            control={form.control}
            name="active"
            label="Works here"
            hint="Who has left signs nothing more; what they signed stays on record."
          />
        )}
      </Form>
    </Dialog>
  )
}
