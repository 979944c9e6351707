import type { HelpPage } from './help-shapes.ts'

export const sheetPage: HelpPage = {
  title: 'Sheet, bends and welds',
  what: 'Figures to draw up a repair section by. The original joint and the car’s own repair data come first.',
  parts: [
    { kind: 'reckon', heading: 'Sheet and its spot welds', what: 'sheet' },
    { kind: 'reckon', heading: 'A strip with one bend', what: 'bend' },
    { kind: 'reckon', heading: 'How rusted a surface is', what: 'rust' },
    {
      kind: 'caution',
      heading: 'Before it carries a load',
      lines: [
        'Never weld fewer spots than the original joint had, and never weaker ones, whatever the table says.',
        'Weld two strips of the same sheet with the same settings and tear them apart before you weld the shell.',
        'Load-bearing metal is for licensed practice: follow the local code, and have it signed off.',
      ],
    },
    {
      kind: 'terms',
      heading: 'Where the figures come from',
      terms: [
        [
          'gauge',
          'Imperial standard wire gauge, BS 3737. Other countries’ gauge numbers mean other thicknesses.',
        ],
        ['weight', 'steel of 7,850 kg/m³'],
        ['spot welds', 'minimum values of suppliers’ data sheets for two sheets of low-carbon steel'],
        ['nugget', 'four times the root of the thickness in mm; five times on a load-bearing joint'],
        [
          'K factor',
          'where the line lies in a bend that grows neither longer nor shorter, as a share of the thickness from the inside',
        ],
        [
          'grade',
          'ASTM D610-08, 10 for hardly any rust down to 0 for more than half. Other scales share the names and differ in the numbers.',
        ],
      ],
    },
  ],
}
