import { useState } from 'react'
import { type CommandPayload, contactSchema } from '../../../domain/commands/command-shapes.ts'
import type { PartyId } from '../../../domain/ids.ts'
import { SelectInput, TextInput } from '../form/inputs.tsx'
import { newId } from '../form/new-id.ts'
import type { CommandState } from '../form/use-command.ts'
import { isThere } from '../form/settled.ts'

export type PartyKind = CommandPayload<'addParty'>['kind']
type Contact = CommandPayload<'addParty'>['contact']

/** An owner, insurer or firm: one from the contact book, or one to be added with the act that needs it. */
export type PartyChoice =
  | { readonly is: 'known'; readonly id: PartyId }
  | { readonly is: 'new'; readonly id: PartyId; readonly contact: Contact }

export interface KnownParty {
  readonly id: PartyId
  readonly name: string
}

/** The choice that a form starts with: the first that is known, or a new one where none is. */
export function usePartyChoice(known: readonly KnownParty[], preferred?: PartyId) {
  const [fresh] = useState(() => newId<PartyId>())
  // Who was chosen before may have been erased since.
  const first = (known.find(({ id }) => id === preferred) ?? known[0])?.id
  return useState<PartyChoice>(
    first === undefined ? { is: 'new', id: fresh, contact: NOBODY } : { is: 'known', id: first },
  )
}

interface PickerProps<Choice> {
  readonly label: string
  readonly known: readonly KnownParty[]
  readonly value: Choice
  readonly onChange: (choice: Choice | PartyChoice) => void
  /** True once the form has been sent. */
  readonly showErrors: boolean
}

export const PartyPicker = (props: PickerProps<PartyChoice>) => <Picker {...props} none={null} />

/** Null where nobody but the owner and the workshop pays. */
export const InsurerPicker = (props: Omit<PickerProps<PartyChoice | null>, 'label'>) => (
  <Picker<PartyChoice | null> {...props} label="Insurer" none={{ words: 'no insurer', choice: null }} />
)

function Picker<Choice extends PartyChoice | null>({
  label,
  known,
  value,
  onChange,
  showErrors,
  none,
}: PickerProps<Choice> & { readonly none: { readonly words: string; readonly choice: Choice } | null }) {
  const choose = (id: string | null) => {
    if (id === NONE && none !== null) onChange(none.choice)
    else if (id === null || id === NEW) onChange({ is: 'new', id: newId<PartyId>(), contact: NOBODY })
    else onChange({ is: 'known', id: id as PartyId })
  }
  return (
    <div className="stack-tight">
      <SelectInput
        label={label}
        choices={[
          ...(none === null ? [] : [{ value: NONE, words: none.words }]),
          ...known.map(({ id, name }) => ({ value: id as string, words: name })),
          { value: NEW, words: 'somebody new' },
        ]}
        value={value === null ? NONE : value.is === 'new' ? NEW : value.id}
        onChange={choose}
      />
      {value?.is === 'new' && (
        <ContactFields
          whose={label}
          contact={value.contact}
          onChange={(contact) => onChange({ ...value, contact })}
          problem={showErrors ? partyProblem(value) : null}
        />
      )}
    </div>
  )
}

function ContactFields({
  whose,
  contact,
  onChange,
  problem,
}: {
  readonly whose: string
  readonly contact: Contact
  readonly onChange: (contact: Contact) => void
  readonly problem: { readonly field: keyof Contact; readonly words: string } | null
}) {
  const box = (field: keyof Contact, label: string, type: 'text' | 'tel' | 'email') => (
    <TextInput
      label={label}
      error={problem?.field === field ? problem.words : undefined}
      type={type}
      value={contact[field]}
      onChange={(text) => onChange({ ...contact, [field]: text })}
    />
  )
  return (
    <div className="field-row">
      {box('name', `Name of the ${whose.toLowerCase()}`, 'text')}
      {box('phone', 'Phone', 'tel')}
      {box('email', 'E-mail', 'email')}
      {box('address', 'Address', 'text')}
    </div>
  )
}

/** What is still wrong with a party that is to be added; null when nothing is. */
export function partyProblem(
  choice: PartyChoice | null,
): { readonly field: keyof Contact; readonly words: string } | null {
  if (choice === null || choice.is === 'known') return null
  const parsed = contactSchema.safeParse(choice.contact)
  if (parsed.success) return null
  const issue = parsed.error.issues[0]
  return { field: (issue?.path[0] ?? 'name') as keyof Contact, words: issue?.message ?? 'Give a name.' }
}

/** Adds a new party first; its id, or null when that was refused or given up (the command then says why). */
export async function settleParty(
  command: CommandState,
  choice: PartyChoice,
  kind: PartyKind,
): Promise<PartyId | null> {
  if (choice.is === 'known') return choice.id
  const payload = { partyId: choice.id, kind, contact: contactSchema.parse(choice.contact) }
  const outcome = await command.send({ kind: 'addParty', carId: null, payload })
  return isThere(outcome) ? choice.id : null
}

/** As {@link settleParty}; undefined when the insurer was refused or given up, null where there is none. */
export async function settleInsurer(
  command: CommandState,
  choice: PartyChoice | null,
): Promise<PartyId | null | undefined> {
  return choice === null ? null : ((await settleParty(command, choice, 'insurer')) ?? undefined)
}

const NEW = 'new'
const NONE = 'none'
const NOBODY: Contact = { name: '', phone: '', email: '', address: '' }
