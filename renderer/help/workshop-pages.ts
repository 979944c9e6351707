import type { HelpPage } from './help-shapes.ts'

export const workshopPage: HelpPage = {
  title: 'Workshop',
  what: 'What everything else rests on: people, bays, working hours, repair types, limits, rates, devices and copies.',
  parts: [
    {
      kind: 'terms',
      heading: 'The sheets',
      terms: [
        [
          'People',
          'who works here, with skills, absences and weeks of their own. Each has a code that only they know; the manager sets a new one when it is forgotten.',
        ],
        ['Bays', 'the places for cars, drawn as they lie. A bay may be of several kinds.'],
        ['Working week', 'when the workshop works, and when it is closed.'],
        ['Planning', 'how many days keep the plan, what a move takes, fixtures, overtime.'],
        [
          'Repair types',
          'layers, gates, hours, parts and welds of the repairs that you do often. A change reaches only the repairs that you pick, and only gates not done.',
        ],
        [
          'Limits',
          'fire watch, dew point and air for coats, gaps and dimensions, and whether figures by person are shown.',
        ],
        ['Rates', 'money an hour for each skill, from a day on. Earlier hours keep their rate.'],
        [
          'Contacts',
          'owners and insurers. Names are kept apart from the record, and can be erased for good once a car has left; the sheet says what remains where.',
        ],
        ['Network', 'lets tablets and phones in the workshop reach this computer, and only them.'],
        ['Devices', 'which devices are let in; shut one out at once.'],
        ['Check', 'reads everything that is kept and says what is wrong with it.'],
        ['Copies', 'copies of everything to another disk, by hand or at a set time.'],
        [
          'Updates',
          'whether a newer Panelwright is there, looked up only where and if you say so. Nothing is installed by itself.',
        ],
        ['Take out', 'tables, or the whole workshop in open formats, to use elsewhere.'],
      ],
    },
  ],
}

export const safetyPage: HelpPage = {
  title: 'Safety',
  what: 'The usual cautions, in one place. They stand on each repair where the work is.',
  parts: [
    {
      kind: 'caution',
      heading: 'Panelwright informs; it does not certify',
      lines: [
        'Repairs near seat-belt, steering, brake and suspension mountings are inspected by law in many countries. Follow the local code and have them signed off by a licensed inspector.',
        'Product data sheets, insurers and local rules come before anything on the screen.',
      ],
    },
    {
      kind: 'facts',
      heading: 'Before cutting',
      lines: [
        'Support the shell. A stripped shell balances differently: check lift and rotisserie before turning.',
        'Disconnect the battery. Take fuel tank and lines out or purge them: a drained tank is not safe, its fumes burn.',
        'Keep heat from brake lines, wiring and trim.',
        'Strip old underseal, foam, wax and sealer back: they burn unseen in cavities and give off toxic gas.',
        'Old paint and body solder hold lead; old pads and underseal may hold asbestos. No dry or power sanding; follow local rules.',
      ],
    },
    {
      kind: 'facts',
      heading: 'Hot work',
      lines: [
        'Ventilate and protect your breathing: zinc, lead and paint fumes are poisonous.',
        'Never weld metal that is wet with chlorinated cleaner: the vapour turns into poison gas in the arc.',
        'Keep the fire watch, and look behind and below.',
      ],
    },
    {
      kind: 'facts',
      heading: 'Coatings',
      lines: ['Two-pack paints need air-fed breathing protection. The data sheet rules; follow local rules.'],
    },
  ],
}

export const wordsPage: HelpPage = {
  title: 'Words',
  what: 'What the words on the screens mean.',
  parts: [
    {
      kind: 'terms',
      heading: 'Car and repair',
      terms: [
        ['visit', 'one stay of a car under one agreement, with its owner, payers and promised date'],
        ['repair', 'one cavity or joint that is opened, put right and closed again'],
        ['layer', 'one sheet of metal in a repair, counted from the innermost'],
        ['closing panel', 'the outermost layer: once it is welded on, nothing behind it can be seen'],
        [
          'covers',
          'a repair covers another when its metal must come off to reach that one, and cannot go back until that one is finished',
        ],
        ['fit group', 'the repairs and hung parts around one opening, offered up together'],
        ['fit-up', 'one offering-up of a whole fit group, with its readings'],
        ['task', 'work on a car that belongs to no repair'],
        ['gate', 'one of the eight checks that a repair passes'],
        ['hold', 'a reason why a gate cannot be passed yet'],
        ['finding', 'damage seen on a layer'],
        ['variation', 'more or less work, put to its payer for a decision'],
        ['away', 'the car is at another firm'],
      ],
    },
    {
      kind: 'terms',
      heading: 'How bad a layer is, from best to worst',
      terms: [
        ['sound', 'nothing to do'],
        ['surface', 'rust that comes off and leaves the steel whole'],
        ['pitted', 'rust has eaten into the steel; measure what is left in mm'],
        ['holed', 'rust has gone through'],
        ['gone', 'there is nothing left to weld to'],
      ],
    },
    {
      kind: 'terms',
      heading: 'Measures',
      terms: [
        ['gap', 'the width along an edge in mm: least, most, mean, and taper, which is most less least'],
        ['flush', 'the step across an edge in mm'],
        ['drift', 'a dimension as read, less its target'],
        [
          'dew point',
          'the temperature at which the air’s water settles; steel less than 3 °C above it is too wet to coat',
        ],
        ['50 % and 80 %', 'the figure that half, and four in five, of such work does not exceed'],
      ],
    },
  ],
}
