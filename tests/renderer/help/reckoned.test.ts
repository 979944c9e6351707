import { describe, expect, test } from 'vitest'
import { bendFigures, rustFigures, sheetFigures } from '../../../renderer/help/reckoned.ts'

describe('what help reckons', () => {
  test('of a sheet is its gauge, its weight and its spot welds', () => {
    // SWG 20 is 0.914 mm (BS 3737); steel of 7850 kg/m3; spots of the suppliers' data sheets for 1.02 mm; 4 and 5 sqrt(t).
    expect(sheetFigures(0.9)).toEqual([
      ['gauge', 'nearest is SWG 20, 0.91 mm'],
      ['weight', '7.07 kg a square metre'],
      ['spot welds', 'at least 19.0 mm from centre to centre, in an overlap of 12.7 mm or more'],
      ['nugget', 'at least 3.8 mm across, 4.7 mm on a load-bearing joint'],
    ])
  })

  test('of a sheet that no table holds says what to do instead', () => {
    expect(Object.fromEntries(sheetFigures(2))).toMatchObject({
      'spot welds':
        'The spot weld table holds sheet up to 1.57 mm, not 2 mm. Plan as many welds as the original joint had.',
    })
    expect(sheetFigures(Number.NaN)).toEqual([
      ['thickness', 'A sheet is thicker than 0 mm. Give the thickness of the thinner sheet in mm.'],
    ])
  })

  test('of a bend is how long the strip is cut', () => {
    // Outside legs of 50 and 30 mm, 1.2 mm thick, 2 mm inside radius, K 0.33: 77.363628 mm, reckoned by hand.
    const bend = { thickness: 1.2, insideRadius: 2, angleDegrees: 90, kFactor: 0.33 }
    expect(bendFigures(bend, [50, 30])).toEqual([
      ['cut it', '77.4 mm long before it is bent'],
      ['in the bend', '3.8 mm of it'],
    ])
    expect(bendFigures(bend, [2, 30])[0]).toEqual([
      'cut it',
      'A leg is shorter than the bend itself. Measure the outside legs again.',
    ])
  })

  test.each([
    // ASTM D610-08: up to 1 % is grade 6, up to 3 % grade 5.
    [1, '6 of ASTM D610-08'],
    [1.01, '5 of ASTM D610-08'],
    [-1, 'Rusted area must be from 0 to 100 %. Judge the rusted share of the surface again.'],
  ])('of a surface rusted over %d %% is: %s', (share, words) => {
    expect(rustFigures(share)).toEqual([['grade', words]])
  })
})
