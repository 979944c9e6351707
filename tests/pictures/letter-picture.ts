import { execFileSync } from 'node:child_process'
import { globSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import process from 'node:process'
import { fileURLToPath } from 'node:url'
import { sharp } from '../../db/photos/sharp.ts'
import { dateToIsoWeek, formatIsoWeek } from '../../domain/time/iso-week.ts'
import { filledDemo } from '../support/filled-demo.ts'

const reports = fileURLToPath(new URL('../../dist/electron/reports.js', import.meta.url))

/** Of a car whose owner is asked for a decision in the week of the filled demo. */
const SHELL = '0402'
const PAGE_PX = 560

/** The first two pages of an owner's week beside each other, as PNG. Needs pdftoppm of poppler-utils. */
export async function letterPicture(dataDir: string): Promise<Buffer> {
  const folder = mkdtempSync(join(tmpdir(), 'panelwright-letter-'))
  try {
    const week = formatIsoWeek(dateToIsoWeek(filledDemo.today))
    execFileSync(process.execPath, [reports, '--data', dataDir, '--week', week, '--out', folder])
    const [pdf] = globSync(`*${SHELL}*.pdf`, { cwd: folder })
    if (pdf === undefined) throw new Error(`There is no report of shell ${SHELL} among those of ${week}.`)
    const size = ['-scale-to-x', `${PAGE_PX}`, '-scale-to-y', '-1']
    const pages = ['-f', '1', '-l', '2']
    execFileSync('pdftoppm', ['-png', ...pages, ...size, join(folder, pdf), join(folder, 'page')])
    const [first = '', second = ''] = globSync('page*.png', { cwd: folder }).toSorted()
    return await sharp([join(folder, first), join(folder, second)], { join: { across: 2 } })
      .png()
      .toBuffer()
  } finally {
    rmSync(folder, { recursive: true })
  }
}
