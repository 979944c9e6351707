import { useState } from 'react'
import type { CarView, TaskView } from '../../domain/views/view-shapes.ts'
import { Button } from '../parts/form/button.tsx'
import { MarkSign } from '../parts/gates/gate-strip.tsx'
import { spentOf } from '../parts/hours/hours-bar.tsx'
import { LeftWords } from '../parts/clock/left-words.tsx'
import { Menu } from '../parts/form/menu.tsx'
import { ReasonDialog } from '../parts/form/reason-dialog.tsx'
import { SayLeftDialog } from '../parts/clock/say-left-dialog.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import { RaiseTaskVariationDialog } from './raise-task-variation-dialog.tsx'
import { ReopenTaskDialog } from './reopen-task-dialog.tsx'
import { SignTaskDialog } from './sign-task-dialog.tsx'
import { TaskDialog } from './task-dialog.tsx'

type Doing =
  | { readonly kind: 'add' }
  | {
      readonly kind: 'change' | 'sign' | 'say left' | 'variation' | 'not needed' | 'reopen'
      readonly task: TaskView
    }

/** Work on the car that belongs to no repair. */
export function TaskList({ view }: { readonly view: CarView }) {
  const [doing, setDoing] = useState<Doing | null>(null)
  const close = () => setDoing(null)
  const { carId, visitId } = view.header
  return (
    <section className="stack-tight">
      <div className="spread">
        <h3>Tasks</h3>
        <Button onClick={() => setDoing({ kind: 'add' })}>Add a task</Button>
      </div>
      {view.tasks.length === 0 && (
        <p className="quiet">
          Work that belongs to no repair: strip, mount on the jig, blast, cavity wax, water test, refit.
        </p>
      )}
      <ul className="lines">
        {view.tasks.map((task) => (
          <li key={task.id} className="line">
            <TaskWords task={task} />
            <Menu
              className="word-button"
              label={
                <>
                  more<span className="hidden-word"> about {task.name}</span>
                </>
              }
              entries={
                task.status === 'open'
                  ? [
                      {
                        id: 'sign',
                        words: 'Sign it as done',
                        onChoose: () => setDoing({ kind: 'sign', task }),
                      },
                      {
                        id: 'left',
                        words: 'Say what is still to do',
                        onChoose: () => setDoing({ kind: 'say left', task }),
                      },
                      {
                        id: 'change',
                        words: 'Change it',
                        onChoose: () => setDoing({ kind: 'change', task }),
                      },
                      ...(visitId === null
                        ? []
                        : [
                            {
                              id: 'variation',
                              words: 'Raise a variation',
                              onChoose: () => setDoing({ kind: 'variation', task }),
                            },
                          ]),
                      {
                        id: 'not',
                        words: 'Not needed',
                        onChoose: () => setDoing({ kind: 'not needed', task }),
                      },
                    ]
                  : [{ id: 'reopen', words: 'Reopen it', onChoose: () => setDoing({ kind: 'reopen', task }) }]
              }
            />
          </li>
        ))}
      </ul>
      {doing?.kind === 'add' && <TaskDialog view={view} task={null} onClose={close} />}
      {doing?.kind === 'change' && <TaskDialog view={view} task={doing.task} onClose={close} />}
      {doing?.kind === 'sign' && <SignTaskDialog carId={carId} task={doing.task} onClose={close} />}
      {doing?.kind === 'say left' && (
        <SayLeftDialog
          carId={carId}
          target={{ kind: 'task', taskId: doing.task.id }}
          name={doing.task.name}
          spent={doing.task.hours.spent}
          left={doing.task.left}
          onClose={close}
        />
      )}
      {doing?.kind === 'variation' && visitId !== null && (
        <RaiseTaskVariationDialog carId={carId} visitId={visitId} task={doing.task} onClose={close} />
      )}
      {doing?.kind === 'reopen' && <ReopenTaskDialog carId={carId} task={doing.task} onClose={close} />}
      {doing?.kind === 'not needed' && (
        <ReasonDialog
          title={`${doing.task.name}: not needed`}
          submit="Not needed"
          onClose={close}
          label="Reason"
          act={(reason) => ({
            kind: 'markTaskNotNeeded',
            carId,
            payload: { taskId: doing.task.id, reason },
            sign: { title: 'Task not needed', says: [doing.task.name, `Reason: ${reason}`] },
          })}
        >
          <p>Its hours are given back. That it was not needed, and why, stays on record.</p>
        </ReasonDialog>
      )}
    </section>
  )
}

function TaskWords({ task }: { readonly task: TaskView }) {
  const when = useWhen()
  const held = task.holds[0]
  return (
    <span>
      <MarkSign mark={task.status === 'open' ? (held === undefined ? 'next' : 'held') : task.status} />{' '}
      <span className="strong">{task.name}</span>{' '}
      <span className="quiet small">
        {task.skill}, {spentOf(task.hours)}
        {task.left !== null && (
          <>
            ; <LeftWords left={task.left} />
          </>
        )}
        {task.done !== null && `; ${task.status} ${when.day(task.done)} by ${task.by}`}
      </span>
      {held !== undefined && <span className="is-accent small"> held: {held.words}</span>}
    </span>
  )
}
