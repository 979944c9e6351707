import type { CarSheet } from '../parts/sheets/car-sheets.ts'
import type { HelpPage } from './help-shapes.ts'

export const CAR_SHEET_PAGES: Readonly<Record<CarSheet, HelpPage>> = {
  map: {
    title: 'Closing map',
    what: 'The repairs of the car by depth: what covers what, what may be worked on next, and what must not be closed yet.',
    parts: [
      {
        kind: 'facts',
        heading: 'Read it',
        lines: [
          'Repairs lie by depth, the innermost below. An upright joins what covers to what it covers; a barred box on it means: may not close yet.',
          'Choose a repair: its section, its next gate and what holds it stand beside the map. ‘Open this repair’ leads to the work.',
          'Repairs around one opening make a fit group and are offered up together.',
        ],
      },
      {
        kind: 'steps',
        heading: 'Draw it',
        lines: [
          '‘Add a repair’ from a repair type, with its side.',
          'Say beside the map what it covers, or what covers it: ‘it covers another’, ‘another covers it’. A circle is refused, and named.',
          '‘Add a fit group’ for what must fit together around an opening.',
          '‘Add a task’ for work that belongs to no repair: strip, lead and fill, paint the shell, refit.',
        ],
      },
      {
        kind: 'caution',
        heading: 'Before load-bearing metal is opened',
        lines: [
          'Say under ‘Safety and support’ how the shell is braced, and that battery and fuel are safe.',
          'At most one side’s load-bearing repairs stand open. Lifting that takes a shell that is held, and your reason.',
          '‘Set a hold’ for what the program cannot know, such as an inspector who must see it first.',
        ],
      },
    ],
  },
  estimate: {
    title: 'Estimate',
    what: 'What the work will take: hours of each repair and gate, what is still unknown, and who has agreed to what.',
    parts: [
      {
        kind: 'facts',
        heading: 'Read it',
        lines: [
          'Each gate has three figures: shortest, most likely, longest. The agreed one is (shortest + 4 × likely + longest) / 6 unless you agree otherwise.',
          'The band says what is hidden: half of such repairs stay at or under its first figure, four of five at or under its second.',
          '‘What could move it’ names the layers that nobody has seen yet, the most doubtful first.',
          'Once assessed the grades are known and the band narrows. Review the hours then; the gate ‘fabricated’ waits for it.',
        ],
      },
      {
        kind: 'steps',
        heading: 'Have it agreed',
        lines: [
          'Open a repair’s line and say how its outermost layer looks; change figures that you know better.',
          '‘Print it for the owner’ makes the letter.',
          'When the answer is there, enter it under ‘Who pays’ with how it came, and sign. Hours that nobody agreed to hold every gate.',
        ],
      },
    ],
  },
  photos: {
    title: 'Photos',
    what: 'Every photo of the car, week by week, with the repair and gate that it proves.',
    parts: [
      {
        kind: 'facts',
        heading: 'What you can do here',
        lines: [
          '‘Add photos of the whole car’ is for the car as it came in, and as it goes. Photos of work are taken on the repair, where they count for its gate.',
          '‘Photos from a card’ brings a camera’s photos in, each beside the work that somebody was clocked on.',
          'Look at one repair or one gate alone with the two lists above the photos.',
          'Choose a photo to see it large, to say what it shows, or to draw an arrow or a circle on it. The original stays as it came.',
        ],
      },
    ],
  },
  hours: {
    title: 'Hours',
    what: 'The hours that were agreed against those that were spent, by payer, repair and gate.',
    parts: [
      {
        kind: 'facts',
        heading: 'Read it',
        lines: [
          'A gate earns its authorised hours when it is passed; an open one has earned nothing. Variance is earned less spent.',
          'Hours on a passed gate are rework and have a cause.',
          'Who pays is told apart: owner, insurer, workshop.',
          'Above the table stands what goes astray and what to do about it: ask the payer for more, or look why.',
          '‘Entries’ lists who logged what. A wrong time is put right on that person’s Day sheet; the old one stays to be read.',
        ],
      },
    ],
  },
  money: {
    title: 'Money',
    what: 'What the visit comes to for each payer: hours at their rates, parts, materials and outside work, all without tax.',
    parts: [
      {
        kind: 'steps',
        heading: 'How',
        lines: [
          'Set what an hour costs on the Workshop screen, under ‘Rates’.',
          '‘Add a cost’ for what a part, a material or another firm is expected to cost; its payer accepts it with the hours.',
          '‘Enter what was spent’ from the bill or the shelf, on the line that it was agreed as.',
        ],
      },
      {
        kind: 'facts',
        heading: 'Good to know',
        lines: [
          'Only managers who are signed in see money.',
          'An hour costs what its day’s rate says; a new rate changes no day before it.',
          'Charged by the hour, fixed or capped: you set it under ‘Change’. The sheet says what may be asked for.',
          'What goes beyond an agreed line is shown as not authorised.',
        ],
      },
    ],
  },
  decisions: {
    title: 'Owner decisions',
    what: 'The variations of this car: more or less work than agreed, put to its payer, and the answers.',
    parts: [
      {
        kind: 'steps',
        heading: 'A variation',
        lines: [
          'A finding that nobody was asked about stands above, with ‘Draft a variation’; ‘Raise a variation’ begins an empty one.',
          'Read hours, parts and photos of the draft and change what is not right. Say why it is needed, and what becomes of the car if the answer is no.',
          'Print it for the owner, and set the day on which you expect the answer.',
          'Enter the answer: ‘Accepted’, ‘With changes’ or ‘Declined’. Work beyond what is authorised waits until then.',
        ],
      },
    ],
  },
  dimensions: {
    title: 'Gaps and dimensions',
    what: 'Whether the shell has moved: distances as found and as read since, and the gaps of each fit group.',
    parts: [
      {
        kind: 'steps',
        heading: 'Before the first cut',
        lines: [
          '‘Add a dimension’ for the diagonals of the door openings and a few datum distances, each with its target.',
          '‘Read it’: the figure in mm, how the shell stood and whether doors hung. Only like is compared with like.',
        ],
      },
      {
        kind: 'facts',
        heading: 'While you work',
        lines: [
          'Drift is a reading less its target. The band of the drawing is the limit.',
          '‘Record a fit-up’ when a whole fit group is offered up: gap and flush along each edge. ‘trial-fitted’ asks for a good one, ‘welded’ for one that is read again.',
        ],
      },
      {
        kind: 'caution',
        heading: 'A reading outside its limit',
        lines: ['The shell has moved. Stop, brace, and find out why before you weld.'],
      },
    ],
  },
  record: {
    title: 'Record',
    what: 'All that ever happened on this car, each line with its number, who and when.',
    parts: [
      {
        kind: 'facts',
        heading: 'What you can do here',
        lines: [
          '‘Find in the record’ looks through all lines by their words and names.',
          '‘Add a note’ keeps what fits nowhere else.',
          'What never happened is voided with ‘void’ and a reason. It stays to be read, and what later entries rest on is voided first. What was undone is not voided: reopen its gate.',
          'The head of the chain, below, is a seal over all lines: it changes if any line is changed.',
        ],
      },
    ],
  },
}
