import type { PlanSheetName } from '../parts/sheets/plan-sheets.ts'
import type { HelpPage } from './help-shapes.ts'

export const PLAN_SHEET_PAGES: Readonly<Record<PlanSheetName, HelpPage>> = {
  drawing: {
    title: 'Drawing',
    what: 'The whole plan at a glance: time from left to right, bays above, people below.',
    parts: [
      {
        kind: 'facts',
        heading: 'Read it',
        lines: [
          'Each car has its own hatching. Nights, weekends and holidays are shaded.',
          'A flag is the promised date. The line with two ends is the finish: 50 % at the near end, 80 % at the far one. 80 % is no promise: one car in five is later.',
          'Choose a block to see why it starts then and not before. Choose a row’s name to see all of its skills.',
          'Work pauses outside working hours and goes on; curing does not pause.',
        ],
      },
      {
        kind: 'steps',
        heading: 'Change it',
        lines: [
          'Drag a car to another bay or day, or press the space bar on it. What comes of it is shown before you put it down.',
          '‘pin it’ holds a piece of work to its person and day. The plan goes around it, or says why it cannot.',
        ],
      },
    ],
  },
  list: {
    title: 'List',
    what: 'The same plan in words: what each person, bay or car has, one after the other.',
    parts: [
      {
        kind: 'facts',
        heading: 'What you can do here',
        lines: [
          'In order ‘by person’, ‘by bay’ or ‘by car’. Each line says when, where, and what it waits for.',
          '‘print’ and ‘calendar file’ give people their plan to take along.',
          '‘pin it’ holds a line to its person and day.',
          '‘How it has moved’ draws a car’s finish from plan to plan, with what moved it.',
        ],
      },
    ],
  },
  'what-if': {
    title: 'What if',
    what: 'What would become of every car’s finish, before you decide.',
    parts: [
      {
        kind: 'steps',
        heading: 'Ask',
        lines: [
          'Choose: somebody is off, a part comes late, a new car comes in, people work longer, there is one more bay.',
          '‘Try it’ shows every car’s finish side by side, as the plan is and as it would be. Nothing is changed by trying.',
          'Assume more on top, or ‘Throw it away’. ‘It is so: record it’ makes it true.',
        ],
      },
    ],
  },
}
