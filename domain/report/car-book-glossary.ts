import type { Decision, Grade } from '../facts/shapes.ts'
import { GATES, type Gate } from '../gates.ts'
import { bookChapter, bookSection, tableBlock, textBlocks } from './car-book-blocks.ts'
import type { BookChapter } from './car-book-shapes.ts'

/** The trade's words for readers who do not know this workshop, whenever they read it. */
export function glossaryChapter(): BookChapter | null {
  return bookChapter('Words in this book', '', [
    bookSection(
      'Repair, layer and closing panel',
      textBlocks([
        'A repair is one cavity or joint of the shell that was opened, put right and closed again. Its layers are sheets of steel, counted from the innermost outwards; the outermost is the closing panel: once it is welded on, nothing behind it can be seen.',
        'One repair covers another when its metal must come off to reach the other. A hold is a reason why a gate could not be passed yet; the manager may release it with a reason.',
      ]),
    ),
    bookSection(
      'The eight gates',
      tableBlock(
        [
          ['Gate', 1.4],
          ['What passing it says', 7],
        ],
        GATES.map((gate) => [gate, GATE_SAYS[gate]]),
      ),
    ),
    bookSection(
      'Grades',
      tableBlock(
        [
          ['Grade', 1.4],
          ['What it says of a layer', 7],
        ],
        Object.entries(GRADE_SAYS),
      ),
    ),
    bookSection(
      'Decisions',
      tableBlock(
        [
          ['Decision', 1.4],
          ['What is to be done with a layer', 7],
        ],
        Object.entries(DECISION_SAYS),
      ),
    ),
  ])
}

const GATE_SAYS: Readonly<Record<Gate, string>> = {
  opened: 'The covering metal is off and the cavity can be seen.',
  assessed: 'Every layer has a grade, or is marked as not seen, and a decision.',
  fabricated: 'Every repair section is made and let in; nothing behind the closing panel still needs metal.',
  sealed: 'The seams are sealed and every drain path is open.',
  primed: 'Bare metal that will be hidden is primed.',
  'trial-fitted': 'The panels around the opening were offered up together, and their gaps were good.',
  welded: 'The closing panel is on.',
  painted: 'A covered repair has its protective coat, an outer one its finish or a temporary coat.',
}

const GRADE_SAYS: Readonly<Record<Grade | 'not seen', string>> = {
  sound: 'No rust.',
  surface: 'Rust on its surface only.',
  pitted: 'Eaten into, but not through.',
  holed: 'Rusted through in places.',
  gone: 'Nothing of it is worth keeping.',
  'not seen': 'It could not be seen; how it was judged stands beside it.',
}

const DECISION_SAYS: Readonly<Record<Decision, string>> = {
  keep: 'It stays as it is.',
  treat: 'It is cleaned and treated.',
  patch: 'What is bad is cut out and a patch is let in.',
  replace: 'A new one is made.',
}
