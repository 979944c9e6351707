import type { HelpPage } from './help-shapes.ts'

export const carsPage: HelpPage = {
  title: 'Cars',
  what: 'Every car in the workshop with what is next on it, its hours against what is authorised, and its promised date; delivered ones below.',
  parts: [
    {
      kind: 'facts',
      heading: 'What you can do here',
      lines: [
        '‘Add a car’ begins a car and its first visit. A warranty return is a new visit of the same car: its hours change no figure of the old one.',
        '‘Bring in a CSV file’ takes cars, repairs or hours from a table, with an example of each to start from; a wrong line is named and nothing is brought in by halves.',
        '‘Bring in a car’s file’ takes a car from another workshop, with its record and photos.',
        'A promised date is past when its day is over. It is in danger when the car’s finish at 80 % lies behind it: the Shop floor and the Plan say so.',
      ],
    },
  ],
}

export const carPage: HelpPage = {
  title: 'One car',
  what: 'Everything about one car, on a sheet each: what covers what, what it will take, photos, hours, money, decisions, dimensions and the whole record.',
  parts: [
    {
      kind: 'terms',
      heading: 'The sheets',
      terms: [
        ['Closing map', 'repairs by depth, and which may be worked on next'],
        ['Estimate', 'what it will take, and who has agreed to what'],
        ['Photos', 'all of them, week by week'],
        ['Hours', 'agreed against spent, gate by gate'],
        ['Money', 'the same in money, with parts and outside work; for managers'],
        ['Owner decisions', 'what its owner or insurer is asked beyond the estimate'],
        ['Gaps and dimensions', 'whether the shell has moved'],
        ['Record', 'all that happened, and where a slip is voided'],
      ],
    },
    {
      kind: 'facts',
      heading: 'At the top',
      lines: [
        '‘Change’ holds the visit: how far it is, its promised date, charge and insurer, name and shell number. Another stay of the car is another visit.',
        'An enquiry that came to nothing, or a car that was added by mistake, is set to ‘not taken on’ there, with a reason. It may be taken up again.',
        '‘The car’s file’ makes a book of its story and an archive with record and original photos, to hand on with the car.',
      ],
    },
  ],
}

export const ownerDecisionsPage: HelpPage = {
  title: 'Owner decisions',
  what: 'Work beyond what is authorised waits here until its payer has answered.',
  parts: [
    {
      kind: 'steps',
      heading: 'A variation',
      lines: [
        'On the car, ‘Owner decisions’, ‘Raise a variation’: the draft holds findings, photos, hours and parts that the finding asks for. Read it and change what is not right.',
        'Say why it is needed, and what becomes of the car if the answer is no.',
        'Print it for the owner, and set the day on which you expect the answer: the plan goes by it.',
        'Enter the answer with how it came: ‘Accepted’, ‘With changes’ or ‘Declined’.',
      ],
    },
    {
      kind: 'facts',
      heading: 'When the answer is no',
      lines: [
        'The workshop pays, or less is done, or the repair is closed as found: a photo of each layer as it is left, what protection can be given, and the payer’s answer, on record for ever.',
        'You may refuse to close load-bearing metal as found. The car then shows as stopped, with the reason.',
        'Hours on work that nobody has authorised are shown the same day.',
      ],
    },
  ],
}

export const ownerReportsPage: HelpPage = {
  title: 'Owner reports',
  what: 'The week’s letter to each owner: what was found, done and spent, and what is expected.',
  parts: [
    {
      kind: 'steps',
      heading: 'Every week',
      lines: [
        'Choose the car. The letter writes itself from the week’s entries; look at it as the owner will.',
        'Add your own words, choose photos, crop them or set two side by side.',
        'Choose how the finish is told: ‘A range’, ‘The later date’ or ‘No date’.',
        '‘Issue it’ keeps the letter as it is, for ever. A later change of the record changes no issued letter.',
        'Save the PDF, the page for a phone or the e-mail, and send it as you like. The program sends nothing.',
      ],
    },
    {
      kind: 'facts',
      heading: 'Good to know',
      lines: [
        '‘Prepare all’ and ‘Issue all’ take every car of the week at once. ‘Set a day and hour’ prepares drafts by themselves; issuing is always yours.',
        'A past week is told from what is on record of that week, whatever came later.',
        'Letters are written in English or German; choose it for the workshop or for one letter.',
      ],
    },
  ],
}
