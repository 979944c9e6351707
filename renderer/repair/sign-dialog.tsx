import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { z } from 'zod'
import { optionalNoteSchema } from '../../domain/facts/shapes.ts'
import { personIdSchema, repairIdSchema } from '../../domain/ids.ts'
import { joinWords } from '../../domain/text/words.ts'
import { localToInstant } from '../../domain/time/zone.ts'
import type { HoldView } from '../../domain/views/shared-views.ts'
import type { RepairView } from '../../domain/views/view-shapes.ts'
import { api } from '../client.ts'
import { useHostAway } from '../outbox/outbox.ts'
import { useActor } from '../parts/sign/actor.tsx'
import { WordButton } from '../parts/form/button.tsx'
import { clockTimeSchema } from '../parts/clock/clock-time.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { ChoiceField, DateField, ManyField, NoteField, TimeField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { useWhen } from '../parts/frame/when.tsx'
import { useRepair } from './repair-context.ts'
import { signWords } from './sign-words.ts'
import { SignSummary } from './sign-summary.tsx'
import { GO_ON_TO_SIGN } from '../parts/sign/sign-request.ts'

const signSchema = (skillHolds: readonly HoldView[]) =>
  z.object({
    did: z
      .array(personIdSchema)
      .min(1, 'Name who did the work.')
      .refine(
        (did) => heldFor(did, skillHolds).every(isReleased),
        'Name only people with the skill, or have its hold released first.',
      ),
    also: z.array(repairIdSchema),
    date: z.iso.date('Give a date.'),
    time: clockTimeSchema,
    coat: z.enum(['protective', 'outer', 'temporary']),
    note: optionalNoteSchema,
  })

type SignValues = z.output<ReturnType<typeof signSchema>>

/** What is about to be signed for, who did it and when; then the code is asked for. */
export function SignDialog({ onClose }: { readonly onClose: () => void }) {
  const { view } = useRepair()
  // What it still asks for may wait on this device: it is prepared, and judged when it is signed.
  const isAway = useHostAway()
  // What is being filled in stays when the host is back.
  const [wasAway] = useState(isAway)
  if (view.next === null) return null
  return view.next.mayPass || isAway || wasAway ? (
    <SignForm view={view} next={view.next} onClose={onClose} />
  ) : (
    <NotYet next={view.next} onClose={onClose} />
  )
}

function NotYet({
  next,
  onClose,
}: {
  readonly next: NonNullable<RepairView['next']>
  readonly onClose: () => void
}) {
  return (
    <Dialog title={`${next.gate} cannot be signed yet`} isOpen onClose={onClose}>
      <SignSummary next={next} skillHolds={[]} />
    </Dialog>
  )
}

function SignForm({
  view,
  next,
  onClose,
}: {
  readonly view: RepairView
  readonly next: NonNullable<RepairView['next']>
  readonly onClose: () => void
}) {
  const { session, person, manager, hostNow } = useActor()
  const when = useWhen()
  const command = useCommand()
  const [isNow, setIsNow] = useState(true)
  const [hasMore, setHasMore] = useState(false)
  const { gate } = next
  const form = useZodForm(signSchema(next.skillHolds), {
    did: usualDoers(view, person?.id ?? manager?.id ?? null),
    also: [],
    date: when.today,
    time: when.time(hostNow()),
    coat: view.repair.outer ? 'outer' : 'protective',
    note: '',
  })
  const [did, also] = form.watch(['did', 'also'])
  const people = session.people.filter(({ active }) => active)
  const nameOf = (id: string) => people.find((each) => each.id === id)?.name ?? 'somebody'

  const submit = async (values: SignValues) => {
    const doers = joinWords(values.did.map(nameOf))
    const held = { ...next, holds: [...next.holds, ...heldFor(values.did, next.skillHolds)] }
    const happened = isNow ? undefined : when.iso(localToInstant(values.date, values.time, when.zone))
    const title = `Sign off ${gate}`
    const outcome = await command.send({
      kind: 'passGate',
      carId: view.car.carId,
      payload: {
        repairIds: [view.repair.id, ...values.also],
        gate,
        did: values.did,
        coat: gate === 'painted' ? values.coat : null,
        note: values.note,
      },
      ...(happened !== undefined && { happened }),
      sign: {
        title,
        says: signWords(view, held, values, doers, isNow, when),
        later: signWords(view, held, values, doers, false, when),
        confirm: `Sign ${gate}`,
        second: next.secondSignature,
      },
    })
    if (isSettled(outcome)) onClose()
  }

  return (
    <Dialog title={`Sign off ${gate}`} isOpen onClose={onClose}>
      <Form form={form} submit={GO_ON_TO_SIGN} refusal={command.refusal} onCancel={onClose} onSubmit={submit}>
        <SignSummary next={next} skillHolds={heldFor(did, next.skillHolds)} />
        {gate === 'painted' && (
          <ChoiceField control={form.control} name="coat" label="Which coat it is" choices={COATS} />
        )}
        {hasMore ? (
          <>
            <ManyField
              control={form.control}
              name="did"
              label="Who did the work"
              choices={people.map(({ id, name }) => ({ value: id, words: name }))}
            />
            <AlsoOn view={view} form={form} />
            {!isNow && (
              <div className="field-row">
                <DateField control={form.control} name="date" label="Done on" />
                <TimeField control={form.control} name="time" label="at" />
              </div>
            )}
            {isNow && <WordButton onClick={() => setIsNow(false)}>it was done earlier</WordButton>}
            <NoteField control={form.control} name="note" label="Note (may stay empty)" />
          </>
        ) : (
          <div className="spread">
            <span>
              Done by{' '}
              <span className="strong">{did.length === 0 ? 'nobody yet' : joinWords(did.map(nameOf))}</span>,{' '}
              <span className="strong">now</span>
              {also.length > 0 && ` on ${also.length + 1} repairs`}
            </span>
            <WordButton onClick={() => setHasMore(true)}>change, add a note</WordButton>
          </div>
        )}
      </Form>
    </Dialog>
  )
}

/** Other repairs of the car at the same gate: one act may pass it on all of them. */
function AlsoOn({
  view,
  form,
}: {
  readonly view: RepairView
  readonly form: ReturnType<typeof useZodForm<ReturnType<typeof signSchema>>>
}) {
  const car = useQuery(api.car.queryOptions({ carId: view.car.carId }))
  const same = (car.data?.repairs ?? []).filter(
    ({ id, next, retired }) => id !== view.repair.id && next === view.next?.gate && !retired,
  )
  if (same.length === 0) return null
  return (
    <ManyField
      control={form.control}
      name="also"
      label={`The same act passes ${view.next?.gate} on`}
      hint="Each needs its own photos and readings, or shares these."
      choices={same.map(({ id, name }) => ({ value: id, words: name }))}
    />
  )
}

/** The skill holds of those who did the work, released ones too. */
function heldFor(did: readonly string[], skillHolds: readonly HoldView[]): readonly HoldView[] {
  return skillHolds.filter(({ subject }) => did.includes(subject))
}

const isReleased = ({ released }: HoldView): boolean => released !== null

const COATS = [
  { value: 'protective', words: 'protective, under cover' },
  { value: 'outer', words: 'outer finish' },
  { value: 'temporary', words: 'temporary, until the final paint' },
]

/** Who is at the device, who is on the clock, and who worked since the gate before was done. */
function usualDoers(view: RepairView, here: z.infer<typeof personIdSchema> | null) {
  const since = Math.max(0, ...view.gates.map(({ mark }) => mark.done ?? 0))
  const worked = view.entries.filter(({ start }) => start !== null && start >= since)
  const workers = new Set([...view.clocks, ...worked].map(({ personId }) => personId))
  if (workers.size > 0) return [...workers]
  return here === null ? [] : [here]
}
