import { fixed } from '../text/words.ts'
import type { WithinView } from '../views/were-we-right-shapes.ts'
import { type Drawing, filled, short, stroked, written } from './shapes.ts'

/**
 * A share of jobs as a bar from 0 to 100 %, with the 95 % interval of what it tells of all jobs as a dimension line through
 * it and the share that it should be as a mark from below.
 *
 * @param width units of the drawing, 120 or more
 */
export function drawShareBar(within: WithinView, width: number): Drawing {
  const { percent, count, jobs, share } = within
  const x = (part: number): number => EDGE + part * (width - 2 * EDGE)
  const [low, high] = [short(x(share.low)), short(x(share.high))]
  const target = short(x(percent / 100))
  return {
    width,
    height: HEIGHT,
    shapes: [
      filled(`M${short(x(0))} ${TOP}H${short(x(1))}V${TOP + BAR}H${short(x(0))}Z`, 'sheet', 'line'),
      filled(
        `M${short(x(0))} ${TOP}H${short(x(count / jobs))}V${TOP + BAR}H${short(x(0))}Z`,
        within.verdict === 'too low' ? 'accent' : 'steel',
      ),
      stroked(`M${low} ${MIDDLE}H${high}`, 'ink', 1.5),
      stroked(`M${low} ${MIDDLE - 5}v10M${high} ${MIDDLE - 5}v10`, 'ink', 1.5),
      stroked(`M${target} ${TOP - 3}V${TOP + BAR + 5}`, 'ink', 2.5),
      written(`${percent} %`, { x: x(percent / 100), y: HEIGHT - 5 }, TEXT, {
        anchor: 'middle',
        tone: 'quiet',
      }),
    ],
    words: `${fixed((100 * count) / jobs, 0)} % of ${jobs}; between ${intervalWords(within)} is likely, ${percent} % was said`,
  }
}

/** '58 and 92 %' */
export const intervalWords = ({ share }: WithinView): string =>
  `${fixed(100 * share.low, 0)} and ${fixed(100 * share.high, 0)} %`

const EDGE = 8
const TOP = 4
const BAR = 14
const MIDDLE = TOP + BAR / 2
const HEIGHT = 40
const TEXT = 12.5
