import { isSettled } from '../parts/form/settled.ts'
import { z } from 'zod'
import { optionalNoteSchema } from '../../domain/facts/shapes.ts'
import { type CarId, personIdSchema } from '../../domain/ids.ts'
import { NO_SKILL } from '../../domain/rules/work-holds.ts'
import { joinWords } from '../../domain/text/words.ts'
import type { TaskView } from '../../domain/views/view-shapes.ts'
import { useActor } from '../parts/sign/actor.tsx'
import { Dialog } from '../parts/form/dialog.tsx'
import { ManyField, NoteField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { HoldNote } from '../parts/gates/hold-note.tsx'
import { PhotoPick } from '../parts/photos/photo-pick.tsx'
import { useCommand } from '../parts/form/use-command.ts'
import { GO_ON_TO_SIGN } from '../parts/sign/sign-request.ts'

type People = ReturnType<typeof useActor>['session']['people']

/** The skill is asked for before the code is, for a task's skill hold is never released. */
const signSchema = (skill: string, people: People) =>
  z.object({
    did: z
      .array(personIdSchema)
      .min(1, 'Name who did the work.')
      .refine(
        (did) =>
          skill === NO_SKILL || people.every(({ id, skills }) => !did.includes(id) || skills.includes(skill)),
        `Name only people with the skill '${skill}'; the manager enters skills under Workshop.`,
      ),
    note: optionalNoteSchema,
  })

/** Signs a task as done, with those who did it. */
export function SignTaskDialog({
  carId,
  task,
  onClose,
}: {
  readonly carId: CarId
  readonly task: TaskView
  readonly onClose: () => void
}) {
  const { session, person } = useActor()
  const command = useCommand()
  const people = session.people.filter(({ active }) => active)
  const form = useZodForm(signSchema(task.skill, people), {
    did: person === null ? [] : [person.id],
    note: '',
  })
  return (
    <Dialog title={`${task.name} is done`} isOpen onClose={onClose}>
      {task.holds.map((hold) => (
        <HoldNote key={`${hold.code}${hold.subject}`} hold={hold} />
      ))}
      {task.plan.photos > 0 && (
        <PhotoPick
          carId={carId}
          serves={[{ what: 'task', taskId: task.id }]}
          caption={task.name}
          kind="plain"
        />
      )}
      <Form
        form={form}
        submit={GO_ON_TO_SIGN}
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async ({ did, note }) => {
          const names = joinWords(people.filter(({ id }) => did.includes(id)).map(({ name }) => name))
          const outcome = await command.send({
            kind: 'signTask',
            carId,
            payload: { taskId: task.id, did, note },
            sign: {
              title: `${task.name} is done`,
              says: [`Done by ${names}`, ...(note === '' ? [] : [note])],
            },
          })
          if (isSettled(outcome)) onClose()
        }}
      >
        <ManyField
          control={form.control}
          name="did"
          label="Done by"
          choices={people.map(({ id, name }) => ({ value: id, words: name }))}
        />
        <NoteField control={form.control} name="note" label="Note (may stay empty)" />
      </Form>
    </Dialog>
  )
}
