import { asChoices } from '../parts/form/as-choices.ts'
import { isSettled } from '../parts/form/settled.ts'
import { useQuery } from '@tanstack/react-query'
import { z } from 'zod'
import { PAYERS, taskPlanSchema, type TaskPlan, type WorkTarget } from '../../domain/facts/shapes.ts'
import { type Gate, gateSchema } from '../../domain/gates.ts'
import type { RepairId, TaskId } from '../../domain/ids.ts'
import type { CarView, TaskView } from '../../domain/views/view-shapes.ts'
import { api } from '../client.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import {
  CheckField,
  ChoiceField,
  HoursThreePointField,
  ManyField,
  NumberField,
  SelectField,
  TextField,
} from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { newId } from '../parts/form/new-id.ts'
import { useCommand } from '../parts/form/use-command.ts'

const schema = taskPlanSchema.extend({ waitsFor: z.array(z.string()), holds: z.array(z.string()) })

/** A task is planned like a gate: hours at three points, a skill, a kind of bay; it may wait for gates or hold them. */
export function TaskDialog({
  view,
  task,
  onClose,
}: {
  readonly view: CarView
  readonly task: TaskView | null
  readonly onClose: () => void
}) {
  const workshop = useQuery(api.workshop.queryOptions())
  return (
    <Dialog title={task === null ? 'Add a task' : `Change ${task.name}`} isOpen onClose={onClose} size="wide">
      <Loaded query={workshop}>
        {({ people, bays }) => (
          <TaskForm
            view={view}
            task={task}
            skills={wordsOf(
              people.flatMap((person) => person.skills),
              task?.plan.skill,
            )}
            bayKinds={wordsOf(
              bays.flatMap((bay) => bay.kinds),
              task?.plan.bayKind,
            )}
            onClose={onClose}
          />
        )}
      </Loaded>
    </Dialog>
  )
}

function TaskForm({
  view,
  task,
  skills,
  bayKinds,
  onClose,
}: {
  readonly view: CarView
  readonly task: TaskView | null
  readonly skills: readonly string[]
  readonly bayKinds: readonly string[]
  readonly onClose: () => void
}) {
  const command = useCommand()
  const form = useZodForm(schema, defaultsOf(task, skills, bayKinds))
  const gates = view.repairs
    .filter((repair) => !repair.retired)
    .flatMap(({ id, name, marks }) =>
      marks.map(({ gate }) => ({
        value: targetToKey({ kind: 'gate', repairId: id, gate }),
        words: `${name}: ${gate}`,
      })),
    )
  const others = view.tasks
    .filter(({ id }) => id !== task?.id)
    .map(({ id, name }) => ({ value: targetToKey({ kind: 'task', taskId: id }), words: name }))
  return (
    <Form
      form={form}
      submit={task === null ? 'Add the task' : 'Change it'}
      refusal={command.refusal}
      onCancel={onClose}
      onSubmit={async ({ waitsFor, holds, ...rest }) => {
        const plan: TaskPlan = { ...rest, waitsFor: waitsFor.map(keyToTarget), holds: holds.map(keyToTarget) }
        const { carId, revision } = view.header
        const outcome = await command.send(
          task === null
            ? { kind: 'addTask', carId, payload: { taskId: newId<TaskId>(), plan } }
            : { kind: 'changeTask', carId, seen: revision, payload: { taskId: task.id, plan } },
        )
        if (isSettled(outcome)) onClose()
      }}
    >
      <TextField control={form.control} name="name" label="What is done" isFirst />
      <HoursThreePointField
        control={form.control}
        name="hours"
        label="Person-hours"
        hint="Six hours for two people last three."
      />
      <div className="field-row">
        <SelectField control={form.control} name="skill" label="Skill" choices={asChoices(skills)} />
        <SelectField
          control={form.control}
          name="bayKind"
          label="Kind of bay"
          choices={asChoices(bayKinds)}
        />
        <NumberField control={form.control} name="people" label="People" unit="" />
        <NumberField control={form.control} name="cureHours" label="Waiting time after it" unit="h" />
        <NumberField control={form.control} name="photos" label="Photos asked for" unit="" />
      </div>
      <div className="field-row">
        <ChoiceField control={form.control} name="payer" label="Who pays" choices={asChoices(PAYERS)} />
        <CheckField control={form.control} name="hotWork" label="Hot work: cutting, grinding or welding" />
      </div>
      <details>
        <summary>What it waits for, and what waits for it</summary>
        <div className="stack">
          <ManyField
            control={form.control}
            name="waitsFor"
            label="Waits for"
            choices={[...others, ...gates]}
          />
          <ManyField control={form.control} name="holds" label="Gates that wait for it" choices={gates} />
        </div>
      </details>
    </Form>
  )
}

function defaultsOf(task: TaskView | null, skills: readonly string[], bayKinds: readonly string[]) {
  if (task !== null) {
    const { plan } = task
    return {
      ...plan,
      hours: { ...plan.hours },
      waitsFor: plan.waitsFor.map(targetToKey),
      holds: plan.holds.map(targetToKey),
    }
  }
  return {
    name: '',
    hours: { shortest: 1, likely: 2, longest: 4 },
    skill: skills[0] ?? 'metalwork',
    people: 1,
    bayKind: bayKinds[0] ?? 'metalwork',
    hotWork: false,
    cureHours: 0,
    photos: 0,
    payer: 'owner' as const,
    waitsFor: [],
    holds: [],
  }
}

const wordsOf = (words: readonly string[], own: string | undefined): readonly string[] =>
  [...new Set(own === undefined ? words : [own, ...words])].toSorted()

const targetToKey = (target: WorkTarget): string =>
  target.kind === 'task' ? `task ${target.taskId}` : `${target.gate} ${target.repairId}`

function keyToTarget(key: string): WorkTarget {
  const [first = '', id = ''] = key.split(' ')
  return first === 'task'
    ? { kind: 'task', taskId: id as TaskId }
    : { kind: 'gate', repairId: id as RepairId, gate: gateSchema.parse(first) satisfies Gate }
}
