import type { HelpPage } from './help-shapes.ts'

export const planPage: HelpPage = {
  title: 'Plan',
  what: 'Who does what where and when, when each car is finished, and what happens if.',
  parts: [
    {
      kind: 'terms',
      heading: 'The plan as',
      terms: [
        ['Drawing', 'time from left to right, bays above, people below'],
        ['List', 'in words, by person, bay or car; to print or to take along'],
        ['What if', 'what would become of every finish, before you decide'],
      ],
    },
    {
      kind: 'facts',
      heading: 'A newer plan',
      lines: [
        'The program plans anew whenever something changes. A newer plan is a proposal. ‘Compare’ says what changes for whom; ‘Take it’ puts it in force, ‘Leave it’ keeps the old one.',
        'Today and the next working days keep what people were given, unless it has become impossible.',
      ],
    },
    {
      kind: 'caution',
      heading: 'Mind',
      lines: [
        'The plan says when work is expected, not that it may be done. A hold counts more than the plan.',
        'Never leave out a support, a cure or a fire watch to keep a time.',
      ],
    },
  ],
}

export const variancePage: HelpPage = {
  title: 'Variance',
  what: 'Hours against the estimate, over all cars: where hours are lost, and why.',
  parts: [
    {
      kind: 'facts',
      heading: 'Read it',
      lines: [
        'At the top stand the worst places in words. Choose one to go down to the single entries.',
        'Compare by gates, repair types, cars, zones or months. By person only where the manager has turned it on; check the law of your country first.',
        'A gate earns its authorised hours when it is passed. Work half done has earned nothing yet: the figures look worst in the middle of a car.',
        '‘save as CSV’ and the workbook hold every figure that is shown.',
      ],
    },
    {
      kind: 'terms',
      heading: 'Words',
      terms: [
        ['authorised', 'what payers have accepted, with accepted variations (BAC)'],
        ['planned by now', 'what the plan that was in force at acceptance would have had done (PV)'],
        ['earned', 'the authorised hours of gates that are passed (EV)'],
        ['spent', 'hours logged (AC)'],
        ['variance', 'earned less spent (CV)'],
        ['index', 'earned by spent (CPI), or by planned (SPI); below 1 is behind'],
        ['expected', 'what it will have taken at the end (EAC)'],
      ],
    },
  ],
}

export const wereWeRightPage: HelpPage = {
  title: 'Were we right',
  what: 'The hours that were said beforehand, against those that repairs took. So you know how far a figure may be trusted.',
  parts: [
    {
      kind: 'facts',
      heading: 'Read it',
      lines: [
        'Each mark is a finished repair. Half should stay at or under the solid line, four of five at or under the dashed one. A diamond took more.',
        'Luck alone moves the shares: the interval says what is likely for all such repairs. Where it is too few to tell, the page says so.',
        'If real hours run over the estimate again and again, estimate higher: the page says by how much, for each repair type.',
        'Repairs closed as found or retired teach nothing and are not counted.',
      ],
    },
  ],
}
