import { useState } from 'react'
import { LEAST_DIGITS } from '../../../domain/commands/code-digits.ts'
import type { PersonId } from '../../../domain/ids.ts'
import type { Refusal } from '../../../domain/refusal.ts'
import type { Outcome } from '../../outbox/outcome.ts'
import { useHostAway } from '../../outbox/outbox.ts'
import type { Person, Signature, SignRequest } from './sign-request.ts'
import { Button } from '../form/button.tsx'
import { CodePad } from './code-pad.tsx'
import { DemoCode } from './demo-code.tsx'
import { Dialog } from '../form/dialog.tsx'
import { Notice, RefusalNote } from '../form/notice.tsx'
import { CodeForm } from './code-form.tsx'
import { PersonInput } from './person-input.tsx'

/** Shows what is about to be signed for and by whom, and asks for that person's own code; for two people, one after the other. */
export function ConfirmSign({
  request,
  people,
  isDemo,
  first,
  manager,
  attempt,
  prepare,
  onDone,
}: {
  readonly request: SignRequest
  readonly people: readonly Person[]
  readonly isDemo: boolean
  /** Who is at the device. */
  readonly first: Person | null
  readonly manager: Person | null
  readonly attempt: (signature: Signature) => Promise<Outcome>
  readonly prepare: (() => Promise<Outcome>) | null
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
  const isAway = useHostAway()

  const submit = async () => {
    if (by === null) return
    if (request.second === true && firstCode === null) {
      setFirstCode(code)
      setCode('')
      return
    }
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

  if (isAway && prepare !== null)
    return <Prepare request={request} refusal={refusal} prepare={prepare} onDone={onDone} />
  return (
    <Dialog title={request.title} isOpen onClose={() => onDone({ is: 'cancelled' })}>
      <CodeForm
        submit={
          request.second === true && !asksSecond ? 'Next: second signature' : (request.confirm ?? 'Sign')
        }
        isReady={code.length >= LEAST_DIGITS && (!asksSecond || secondBy !== null)}
        isBusy={isBusy}
        refusal={refusal}
        onSubmit={submit}
      >
        <Lines of={request.says} />
        {request.cautions !== undefined && request.cautions.length > 0 && (
          <Notice kind="caution">
            {request.cautions.map((words) => (
              <p key={words}>{words}</p>
            ))}
          </Notice>
        )}
        {asksSecond ? (
          <PersonInput
            label="Second signature"
            people={others}
            none="choose the second person"
            value={secondBy}
            onChange={setSecondBy}
          />
        ) : (
          <PersonInput label="Signed by" people={signers} value={by} onChange={setBy} />
        )}
        <CodePad
          key={asksSecond ? 'second' : 'first'}
          label={asksSecond ? 'Second person’s code' : 'Own code'}
          value={code}
          onChange={setCode}
        />
        <DemoCode isDemo={isDemo} of={people.find(({ id }) => id === (asksSecond ? secondBy : by))} />
      </CodeForm>
    </Dialog>
  )
}

/** While the host is away nobody can sign; what would be signed is kept, with the time that it was done. */
function Prepare({
  request,
  refusal,
  prepare,
  onDone,
}: {
  readonly request: SignRequest
  readonly refusal: Refusal | null
  readonly prepare: () => Promise<Outcome>
  readonly onDone: (outcome: Outcome) => void
}) {
  const [cannot, setCannot] = useState<Refusal | null>(null)
  const keep = async () => {
    const outcome = await prepare()
    if (outcome.is === 'refused') setCannot(outcome.refusal)
    else onDone(outcome)
  }
  return (
    <Dialog title={request.title} isOpen onClose={() => onDone({ is: 'cancelled' })}>
      <Lines of={request.later ?? request.says} />
      <Notice kind="held">
        <p className="strong">
          {refusal === null ? 'The host cannot be reached, so nobody can sign now.' : refusal.message}
        </p>
        <p>
          Keep it prepared: it says when the work was done, and is signed with a code once the host answers.
          No code is kept on this device.
        </p>
      </Notice>
      <RefusalNote refusal={cannot} />
      <Button kind="main" onClick={() => void keep()}>
        Keep it prepared
      </Button>
    </Dialog>
  )
}

function Lines({ of }: { readonly of: readonly string[] }) {
  return (
    <ul className="lines">
      {of.map((words) => (
        <li key={words} className="line">
          {words}
        </li>
      ))}
    </ul>
  )
}

function mayStand(person: Person, request: SignRequest): boolean {
  return request.roles === undefined || person.roles.some((role) => request.roles?.includes(role))
}
