import { useState } from 'react'
import type { PersonId } from '../../domain/ids.ts'
import type { Refusal } from '../../domain/refusal.ts'
import type { Outcome } from '../outbox/outcome.ts'
import type { Person, Signature, SignRequest } from './sign-request.ts'
import { Button } from './button.tsx'
import { CodePad } from './code-pad.tsx'
import { Dialog } from './dialog.tsx'
import { SelectInput } from './fields.tsx'
import { Notice, RefusalNote } from './notice.tsx'

/** Shows what is about to be signed for and by whom, and asks for that person's own code; for two people, one after the other. */
export function ConfirmSign({
  request,
  people,
  first,
  manager,
  attempt,
  onDone,
}: {
  readonly request: SignRequest
  readonly people: readonly Person[]
  /** Who is at the device. */
  readonly first: Person | null
  readonly manager: Person | null
  readonly attempt: (signature: Signature) => Promise<Outcome>
  readonly onDone: (outcome: Outcome) => void
}) {
  const signers = people.filter((person) => person.active && mayStand(person, request))
  const [by, setBy] = useState<PersonId | null>(
    [first, manager].find((person) => person !== null && signers.some(({ id }) => id === person.id))?.id ??
      signers[0]?.id ??
      null,
  )
  const [code, setCode] = useState('')
  const [secondBy, setSecondBy] = useState<PersonId | null>(null)
  const [firstCode, setFirstCode] = useState<string | null>(null)
  const [refusal, setRefusal] = useState<Refusal | null>(null)
  const [isBusy, setIsBusy] = useState(false)
  const asksSecond = request.second === true && firstCode !== null
  const others = people.filter((person) => person.active && person.id !== by)

  const submit = async () => {
    if (by === null || code.length < 4 || isBusy) return
    if (request.second === true && firstCode === null) {
      setFirstCode(code)
      setCode('')
      return
    }
    if (asksSecond && secondBy === null) return
    setIsBusy(true)
    const outcome = await attempt({
      by,
      code: firstCode ?? code,
      second: asksSecond && secondBy !== null ? { by: secondBy, code } : null,
    })
    setIsBusy(false)
    setCode('')
    setFirstCode(null)
    if (outcome.is === 'refused') setRefusal(outcome.refusal)
    else onDone(outcome)
  }

  return (
    <Dialog title={request.title} isOpen onClose={() => onDone({ is: 'cancelled' })}>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault()
          void submit()
        }}
      >
        <ul className="lines">
          {request.says.map((words) => (
            <li key={words} className="line">
              {words}
            </li>
          ))}
        </ul>
        {request.cautions !== undefined && request.cautions.length > 0 && (
          <Notice kind="caution">
            {request.cautions.map((words) => (
              <p key={words}>{words}</p>
            ))}
          </Notice>
        )}
        {asksSecond ? (
          <SelectInput
            label="Second signature"
            choices={others.map((person) => ({ value: person.id, words: person.name }))}
            value={secondBy}
            onChange={setSecondBy}
            none="choose the second person"
          />
        ) : (
          <SelectInput
            label="Signed by"
            choices={signers.map((person) => ({ value: person.id, words: person.name }))}
            value={by}
            onChange={setBy}
          />
        )}
        <CodePad
          key={asksSecond ? 'second' : 'first'}
          label={asksSecond ? 'Second person’s code' : 'Own code'}
          value={code}
          onChange={setCode}
        />
        <RefusalNote refusal={refusal} />
        <Button
          kind="main"
          type="submit"
          disabled={code.length < 4 || (asksSecond && secondBy === null)}
          aria-busy={isBusy}
        >
          {request.second === true && !asksSecond ? 'Next: second signature' : (request.confirm ?? 'Sign')}
        </Button>
      </form>
    </Dialog>
  )
}

function mayStand(person: Person, request: SignRequest): boolean {
  return request.roles === undefined || person.roles.some((role) => request.roles?.includes(role))
}
