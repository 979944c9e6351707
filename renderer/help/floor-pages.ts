import type { HelpPage } from './help-shapes.ts'

export const beginPage: HelpPage = {
  title: 'Begin here',
  what: 'Panelwright takes each repair of a car through eight gates, keeps proof of every layer before it is covered, and tells each owner once a week how things stand.',
  parts: [
    {
      kind: 'steps',
      heading: 'From nothing to the first gate',
      lines: [
        'Workshop, ‘People’: add who works here, with their skills, and give each their own code.',
        'Workshop, ‘Bays’: add the bays and drag them to where they are.',
        'Cars, ‘Add a car’: its name, its shell number, the owner and the promised date. Say that it is in work if it is.',
        'On the car, ‘Add a repair’: choose a repair type and the side. Layers, gates and hours come with the type and can be changed. With several, say what covers what, so that nothing is closed in the wrong order.',
        'On the car, ‘Estimate’: enter what the owner agrees to. Hours that nobody agreed to hold every gate.',
        'On the repair: take the photos that the gate ‘opened’ asks for, and sign it with your code.',
        'Day sheet: ‘Clock in’ at the work. From now on its hours are kept.',
        'Shop floor, ‘Book a car into a bay’, so that the plan knows where it stands.',
      ],
    },
    {
      kind: 'facts',
      heading: 'Good to know',
      lines: [
        'A gate is signed by a person with their own code. Who signs answers for what stands there.',
        'Nothing is ever erased from the record. What never happened is voided with a reason; what was undone is reopened. Both stay to be read.',
        'When something cannot be done, the screen says why, and who can clear it.',
        '‘First steps’, above the screens of a new workshop, leads through the same and goes by itself. Put it away if you know your way.',
      ],
    },
    { kind: 'marks', heading: 'The marks of gates, everywhere the same' },
  ],
}

export const shopFloorPage: HelpPage = {
  title: 'Shop floor',
  what: 'Where every car is, who is on it, what holds it, and what needs you today.',
  parts: [
    {
      kind: 'facts',
      heading: 'What it shows',
      lines: [
        '‘On the clock’ is who works on what at this moment. A clock that ran past the end of somebody’s day says so and counts only to that end until someone says when the work stopped.',
        'The bays lie as you arranged them. Each car says what is next, what it waits for, and when it is done with a likelihood of 80 %.',
        '‘Needs you today’ lists what goes astray and can still be put right, the worst first. A warning goes by itself when its cause is gone.',
        'Running fire watches count down. Look before you say that the place is safe.',
      ],
    },
    {
      kind: 'steps',
      heading: 'Move or book a car',
      lines: [
        'Choose ‘move or book’ at the car, or ‘book’ at the bay.',
        'Say from when to when. A car that goes to another firm is away: name the firm and when it comes back.',
        'When it is back, say what was taken off there: dipping takes primer and sealer out of cavities, and those gates open again.',
      ],
    },
  ],
}

export const daySheetPage: HelpPage = {
  title: 'Day sheet',
  what: 'What you can do now, in the order of the plan; what waits and why; your clock and your hours.',
  parts: [
    {
      kind: 'steps',
      heading: 'A day',
      lines: [
        'Say who you are. The device remembers it; your code it never does.',
        '‘Clock in’ at the work. The clock of your last work stops by itself.',
        '‘Photo’ at the work opens the camera; car, repair and gate are filled in. Say what the photo shows if it is more than the work.',
        'Open the repair to read gaps, dimensions or conditions, and to sign.',
        '‘Stop clock’ at the end. What is forgotten is asked for the next morning.',
      ],
    },
    {
      kind: 'facts',
      heading: 'Good to know',
      lines: [
        '‘several at once’ puts one clock on several repairs of one car; the hours are shared by their estimates, or as you say.',
        '‘workshop time’ is for sweeping, deliveries and what belongs to no car.',
        '‘log time by hand’ is for hours that no clock has seen. Corrections keep the old entry.',
        'Cutting, grinding and welding are hot work: stopping such a clock starts the fire watch, and the work cannot be signed before it is over.',
        'Without the network, clocks, photos and readings wait on the device and go out once. Gates are prepared and signed when the host answers.',
      ],
    },
  ],
}

export const repairPage: HelpPage = {
  title: 'A repair',
  what: 'One cavity or joint that is opened, put right and closed again: its layers drawn as a cut through the metal, and the next gate with all that it asks for.',
  parts: [
    {
      kind: 'terms',
      heading: 'The eight gates',
      terms: [
        [
          'opened',
          'The covering metal is off and the cavity can be seen. A photo before cutting and one after; on load-bearing metal bracing, dimensions, battery and fuel stand as safe.',
        ],
        [
          'assessed',
          'Every layer has a grade and a decision: keep, treat, patch or replace. Grade and photo for each.',
        ],
        [
          'fabricated',
          'Every repair section is made and let in; nothing behind the closing panel needs metal any more. A photo of each repaired layer.',
        ],
        ['sealed', 'The seams are sealed and every drain is open. A photo, and the drains checked.'],
        [
          'primed',
          'Bare metal that will be hidden is primed. A photo; air, humidity and the steel’s temperature, at least 3 °C above the dew point.',
        ],
        [
          'trial-fitted',
          'The last fit-up of each of its fit groups is good. Gaps, flush, dimensions, a photo.',
        ],
        [
          'welded',
          'The closing panel is on. A photo; welds counted against the plan; gaps and dimensions read again.',
        ],
        [
          'painted',
          'Covered: the protective coat. Outside: its finish, or a temporary coat until the final paint. A photo.',
        ],
      ],
    },
    {
      kind: 'steps',
      heading: 'Pass the next gate',
      lines: [
        'Bring what the list asks for: touch a line to read, count or photograph it.',
        '‘Take photos’ takes any number; each goes to this repair and gate.',
        '‘Sign off gate’ shows what you are about to sign for. Enter your code.',
        'If it is held, the line says why and who clears it. ‘something cannot be brought: ask for a release’ puts it to the manager.',
      ],
    },
    {
      kind: 'facts',
      heading: 'When it goes wrong',
      lines: [
        'The work must be done again: reopen the gate, with a reason. Later gates of the repair open too, and hours on them are rework until each is passed again.',
        'It was entered by mistake: void it, on the car’s ‘Record’, with a reason. What later entries rest on is voided first.',
        'The damage is another one than thought: ‘Add a finding’. The manager puts it to the owner as a variation.',
        'The manager may release most holds with a reason. ‘Order’ and ‘closed in order’ nobody can release: what is hidden unfinished is hidden for good.',
      ],
    },
    { kind: 'marks', heading: 'The marks' },
  ],
}

export const cardPage: HelpPage = {
  title: 'Photos from a card',
  what: 'Brings photos of a camera’s card in, each beside the work that somebody was clocked on when it was taken.',
  parts: [
    {
      kind: 'steps',
      heading: 'How',
      lines: [
        'Choose the card’s folder with ‘Choose a card or folder’, or single files with ‘Choose photos’.',
        'Look through the groups. Each photo says why it was set where it stands; move those that belong elsewhere.',
        'Set the camera’s clock right if all are off by the same time.',
        'Bring them in. Nothing is attached before, and the originals stay on the card.',
      ],
    },
  ],
}

export const tabletsPage: HelpPage = {
  title: 'Tablets and phones',
  what: 'How a device at the car is let in, and what happens when the network drops.',
  parts: [
    {
      kind: 'steps',
      heading: 'Let a device in',
      lines: [
        'Workshop, ‘Network’: open the workshop network. It stays inside the workshop’s own network.',
        'Let the device trust the workshop’s certificate once; the pictures there show how.',
        'Workshop, ‘Devices’, ‘Let a device in’: scan the code, or type it. It holds for five minutes and for one device.',
        'A lost device is shut out there at once.',
      ],
    },
    {
      kind: 'facts',
      heading: 'Without a network',
      lines: [
        'Photos, clocks and readings are kept on the device and shown as waiting. They survive a reload and a flat battery.',
        'They go out once, in order, as soon as the host answers.',
        'A gate is prepared and waits for your code. The time that you said it was done stays.',
        'What the host refuses comes back in words, with what was kept.',
      ],
    },
  ],
}
