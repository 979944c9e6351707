import type { TaskState } from '../car.ts'
import { stampOf } from '../state/fact-stamp.ts'
import { capital, joinWords } from '../text/words.ts'
import { inSentence } from '../views/work-words.ts'
import { bookChapter, bookSection, linesBlock, textBlocks } from './car-book-blocks.ts'
import { handHoldLines } from './car-book-gates.ts'
import { photosBlock } from './car-book-photos.ts'
import type { BookChapter, BookLine, BookSection } from './car-book-shapes.ts'
import { type BookTelling, momentOf, nameOfStamp } from './car-book-telling.ts'
import { clause, sentence, series } from './car-book-words.ts'

/** Work on the whole car that belongs to no repair. */
export function tasksChapter(telling: BookTelling): BookChapter | null {
  const tasks = [...telling.car.tasks.values()]
  const open = tasks.filter(
    (task) => taskLines(telling, task).length === 0 && telling.photos.ofTask(task.id).length === 0,
  )
  const names = open.map(({ plan }) => inSentence(plan.name))
  return bookChapter('Work on the whole car', 'Tasks that belong to no repair', [
    ...tasks.filter((task) => !open.includes(task)).map((task) => taskSection(telling, task)),
    bookSection('Not done yet', textBlocks([names.length === 0 ? '' : `${capital(series(names))}.`])),
  ])
}

function taskSection(telling: BookTelling, task: TaskState): BookSection {
  const lines = taskLines(telling, task)
  return bookSection(
    task.plan.name,
    textBlocks([task.status === 'open' ? 'Not done yet.' : '']),
    linesBlock(lines),
    linesBlock(handHoldLines(telling, (scope) => scope.kind === 'task' && scope.taskId === task.id)),
    photosBlock(telling.photos.ofTask(task.id)),
  )
}

function taskLines(telling: BookTelling, { id }: TaskState): readonly BookLine[] {
  const { nameOf } = telling.context
  return telling.facts.flatMap((fact) => {
    const stamp = stampOf(fact)
    const by = nameOfStamp(telling, stamp)
    const line = (text: string): readonly BookLine[] => [
      { lead: momentOf(telling, stamp.happened), text: capital(text.trim()) },
    ]
    switch (fact.kind) {
      case 'taskSigned':
        return fact.payload.taskId === id
          ? line(
              `Done by ${joinWords(fact.payload.did.map(nameOf))}, signed by ${by}. ${sentence(fact.payload.note)}`,
            )
          : []
      case 'taskNotNeeded':
        return fact.payload.taskId === id
          ? line(`Marked not needed by ${by}: ${clause(fact.payload.reason)}.`)
          : []
      case 'taskReopened':
        return fact.payload.taskId === id
          ? line(`Reopened by ${by}, cause ‘${fact.payload.cause}’: ${clause(fact.payload.reason)}.`)
          : []
      default:
        return []
    }
  })
}
