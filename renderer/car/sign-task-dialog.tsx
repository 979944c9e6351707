import { isSettled } from '../parts/settled.ts'
import { z } from 'zod'
import { optionalNoteSchema } from '../../domain/facts/shapes.ts'
import { type CarId, personIdSchema } from '../../domain/ids.ts'
import { joinWords } from '../../domain/text/words.ts'
import type { TaskView } from '../../domain/views/view-shapes.ts'
import { useActor } from '../parts/actor.tsx'
import { Dialog } from '../parts/dialog.tsx'
import { ManyField, NoteField } from '../parts/fields.tsx'
import { Form, useZodForm } from '../parts/form.tsx'
import { HoldNote } from '../parts/hold-note.tsx'
import { PhotoPick } from '../parts/photo-pick.tsx'
import { useCommand } from '../parts/use-command.ts'

const schema = z.object({
  did: z.array(personIdSchema).min(1, 'Name who did the work.'),
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
  const form = useZodForm(schema, { did: person === null ? [] : [person.id], note: '' })
  const people = session.people.filter(({ active }) => active)
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
        submit="Go on to the code"
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
