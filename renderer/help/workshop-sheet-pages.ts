import type { WorkshopSheet } from '../parts/sheets/workshop-sheets.ts'
import type { HelpPage } from './help-shapes.ts'

export const WORKSHOP_SHEET_PAGES: Readonly<Record<WorkshopSheet, HelpPage>> = {
  people: {
    title: 'People',
    what: 'Who works here, what each can do, and when each is here.',
    parts: [
      {
        kind: 'facts',
        heading: 'What you can do here',
        lines: [
          '‘Add a person’ with skills and a first code of their own. A gate is signed by somebody with the skill it needs.',
          '‘set the code anew’ when somebody has forgotten theirs. Nobody can read a code, you neither.',
          'Under ‘Change’ stand absences, a working week of their own, and whether they still work here. Who has left signs nothing more; what they signed stays.',
        ],
      },
    ],
  },
  bays: {
    title: 'Bays',
    what: 'The places for cars, drawn as they lie in the workshop.',
    parts: [
      {
        kind: 'steps',
        heading: 'How',
        lines: [
          '‘Add a bay’: its name and what can be done in it. A bay may be of several kinds.',
          'Drag it to where it is, and its lower right corner to its size. A square is a metre.',
          'By keyboard the arrow keys move the bay, with Shift they change its size.',
          '‘Keep this arrangement’. The Shop floor and the Plan draw it so.',
        ],
      },
    ],
  },
  week: {
    title: 'Working week',
    what: 'When the workshop works, and on which days it is closed.',
    parts: [
      {
        kind: 'facts',
        heading: 'What it does',
        lines: [
          '‘Set the week and holidays’ for the hours of each day, breaks left out, and for the days on which nobody works.',
          'The plan puts work into these hours only. Curing goes on at night and over the weekend.',
          'A clock that runs past the end of somebody’s day counts only to that end until they say when the work stopped.',
          'Who works otherwise has a week of their own, under ‘People’.',
        ],
      },
    ],
  },
  planning: {
    title: 'Planning',
    what: 'What the plan goes by beside people and bays: days that stay as they are, moves, fixtures, overtime.',
    parts: [
      {
        kind: 'facts',
        heading: 'What you can set',
        lines: [
          '‘Working days after today’: so many days keep what people were given, unless it has become impossible.',
          'What moving a shell to another bay takes, in minutes and people.',
          'How many days an owner’s answer takes where you named no day.',
          '‘Count the fixtures’: jigs, rotisseries and dollies that are there. Uncounted they are not limited.',
          '‘Add overtime’: who works longer, on which days, from when to when. It counts on holidays too.',
        ],
      },
    ],
  },
  types: {
    title: 'Repair types',
    what: 'The repairs that you do often, with their layers, gates, hours, parts and welds, ready to be put on a car.',
    parts: [
      {
        kind: 'facts',
        heading: 'What you can do here',
        lines: [
          'Choose a type to see its section and what each gate asks for and takes: shortest, most likely, longest.',
          '‘Change it’ asks which repairs take the change over. Only those that you pick do, and only on gates that are not done.',
          '‘New repair type’ begins an empty one; ‘Copy as a new type’ starts from one that is nearly right.',
          '‘Retire it’ when it is no longer offered. Repairs that came from it keep their plan.',
        ],
      },
    ],
  },
  limits: {
    title: 'Limits',
    what: 'Figures that gates and readings are judged by.',
    parts: [
      {
        kind: 'facts',
        heading: 'What they do',
        lines: [
          'The fire watch runs from when the clock on cutting, grinding or welding is stopped. It is never under 30 minutes; your insurer may ask for more.',
          'Gaps, flush and dimensions start from these figures; each edge and each dimension may have its own.',
          'A coat waits until the steel is warm enough above the dew point and the air dry enough. The product’s data sheet comes first.',
          'Figures by person are shown only if you turn them on here. Check the law of your country first.',
          'A gate keeps the limits under which it was signed: ‘Change the limits’ changes no past.',
        ],
      },
    ],
  },
  rates: {
    title: 'Rates',
    what: 'What an hour costs, without tax, and from which day on.',
    parts: [
      {
        kind: 'facts',
        heading: 'How they count',
        lines: [
          '‘Set rates’: the ‘Usual rate’, and another for each skill that is charged otherwise.',
          'An hour costs what is in force on its day. What was worked or accepted earlier keeps its rate.',
          'Hours of days before the first rate have no money and are shown as hours.',
        ],
      },
    ],
  },
  contacts: {
    title: 'Contacts',
    what: 'Owners, insurers and the firms where shells are sent. Only managers see them.',
    parts: [
      {
        kind: 'facts',
        heading: 'What you can do here',
        lines: [
          'Add an owner, an insurer or a firm beside its heading. Owners also come with their car.',
          'Names, telephone numbers and addresses are kept apart from the record, so that they can go while it stays.',
          '‘Erase for good …’ takes a person’s name out once their car has left. It says what stays, and where; it cannot be brought back.',
        ],
      },
    ],
  },
  network: {
    title: 'Network',
    what: 'Lets tablets and phones in the workshop reach this computer, and only them.',
    parts: [
      {
        kind: 'steps',
        heading: 'How',
        lines: [
          '‘Open the workshop network’. The internet does not reach it.',
          'Type the address that is shown in the tablet’s browser.',
          'Let each tablet trust this computer once; the pictures show how. What is sent is then encrypted.',
          'Let it in under ‘Devices’. Before that it sees nothing.',
        ],
      },
      {
        kind: 'caution',
        heading: 'Without encryption',
        lines: [
          'Whoever is in that network can read and change what is sent, codes included. Do so only on a network of your own, for as long as a tablet cannot do otherwise.',
        ],
      },
    ],
  },
  devices: {
    title: 'Devices',
    what: 'The tablets and phones that are let in.',
    parts: [
      {
        kind: 'facts',
        heading: 'What you can do here',
        lines: [
          '‘Let a device in’ shows a code: scan it with the device, or type it there. It holds for five minutes and for one device.',
          'A device belongs to the workshop, not to a person: each gate is still signed with the person’s own code.',
          'Shut a lost device out at once: it sees nothing any more.',
          'Give each one a name, so that you know which is which.',
        ],
      },
    ],
  },
  check: {
    title: 'Check',
    what: 'Reads everything that is kept and says whether anything was lost or changed.',
    parts: [
      {
        kind: 'facts',
        heading: 'What it does',
        lines: [
          '‘Check now’ reads each line of the journal, each photo and each report, and compares. It only reads; everybody goes on working.',
          'Each fault says what it means and what to do. Keep the folder as it is until you have read them.',
          'What can be made again is mended from here, photos out of a copy.',
        ],
      },
    ],
  },
  copies: {
    title: 'Copies',
    what: 'Copies of everything to another disk, by hand or at a set time.',
    parts: [
      {
        kind: 'steps',
        heading: 'So that nothing is lost',
        lines: [
          '‘Choose a folder for copies’ on another disk, and say when: every day, every few hours, or by hand only. Take the disk home now and then.',
          'If you seal copies, write the passphrase down where the disk is not. Without it nobody can open them, we neither.',
          'The Shop floor warns when the last good copy is too old.',
          'Once a year restore a copy on another computer and look at it. A copy that was never restored is a hope.',
        ],
      },
      {
        kind: 'facts',
        heading: 'Good to know',
        lines: [
          'Codes and paired devices are in no copy: after a restore a manager chooses a new code.',
          '‘verify all of it’ reads a whole copy and says whether it is good.',
        ],
      },
    ],
  },
  'take-out': {
    title: 'Take out',
    what: 'Tables for your bookkeeping, or the whole workshop, in formats that other programs read.',
    parts: [
      {
        kind: 'facts',
        heading: 'What there is',
        lines: [
          '‘Hours’, ‘Gates’ and ‘Variations’ as a workbook or as CSV. Hours name people only if figures by person are on.',
          '‘The whole workshop’ is one archive with every fact, photo and report. Panelwright takes it in again in an empty folder, on any computer.',
          'It holds names, addresses and prices: keep it as you keep the workshop’s own books.',
        ],
      },
    ],
  },
  updates: {
    title: 'Updates',
    what: 'Which version this is, and whether there is a newer one.',
    parts: [
      {
        kind: 'facts',
        heading: 'What it does',
        lines: [
          'The program asks nothing of the internet unless you want it to.',
          '‘Have newer versions looked for’ asks once a week at an address that you give, and says nothing of the workshop there.',
          'Nothing is fetched or installed by itself: a manager is told here, and decides.',
        ],
      },
    ],
  },
}
