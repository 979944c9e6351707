import { Link, useSearch } from '@tanstack/react-router'
import { Fragment } from 'react'
import type { MarkKind } from '../../domain/views/shared-views.ts'
import { MarkSign } from '../parts/gates/gate-strip.tsx'
import { HELP_TOPICS, type HelpName, sheetsOf, topicOf } from './help-names.ts'
import { KeyGroups } from '../keys/key-groups.tsx'
import { KEY_MAP } from '../keys/keys.ts'
import { ScreenHead } from '../parts/frame/screen-head.tsx'
import { HELP_PAGES } from './help-pages.ts'
import type { HelpPart } from './help-shapes.ts'
import styles from './help.module.css'
import { Reckon } from './reckon.tsx'

/** Help inside the program, one page a screen and one a sheet. */
export function HelpScreen() {
  const { of = 'begin' } = useSearch({ from: '/help' })
  const page = HELP_PAGES[of]
  return (
    <>
      <ScreenHead title={titleOf(of)} below={page.what} />
      <div className={styles.help}>
        <PageList current={of} />
        <article className={styles.page} aria-label={page.title}>
          {page.parts.map((part) => (
            <section key={part.heading} className={part.kind === 'caution' ? styles.caution : undefined}>
              <h2>{part.heading}</h2>
              <Part part={part} />
            </section>
          ))}
        </article>
      </div>
    </>
  )
}

/** A sheet's page has its screen's name before its own. */
const titleOf = (of: HelpName): string => {
  const topic = topicOf(of)
  const { title } = HELP_PAGES[of]
  return topic === of ? title : `${HELP_PAGES[topic].title}: ${title}`
}

/** The sheets of a screen are listed while one of its pages is shown. */
function PageList({ current }: { readonly current: HelpName }) {
  const open = topicOf(current)
  const sheets = sheetsOf(open)
  return (
    <nav className={styles.list} aria-label="Pages of help">
      {HELP_TOPICS.map((topic) => (
        <Fragment key={topic}>
          <PageLink of={topic} current={current} />
          {topic === open && sheets.length > 0 && (
            <div className={styles.sheets} role="group" aria-label={`Sheets of ‘${HELP_PAGES[topic].title}’`}>
              {sheets.map((sheet) => (
                <PageLink key={sheet} of={sheet} current={current} />
              ))}
            </div>
          )}
        </Fragment>
      ))}
    </nav>
  )
}

function PageLink({ of, current }: { readonly of: HelpName; readonly current: HelpName }) {
  return (
    <Link to="/help" search={{ of }} aria-current={of === current ? 'page' : undefined}>
      {HELP_PAGES[of].title}
    </Link>
  )
}

function Part({ part }: { readonly part: HelpPart }) {
  switch (part.kind) {
    case 'steps':
      return (
        <ol className={styles.steps}>
          {part.lines.map((line) => (
            <li key={line}>{withLabels(line)}</li>
          ))}
        </ol>
      )
    case 'facts':
    case 'caution':
      return (
        <ul className={styles.facts}>
          {part.lines.map((line) => (
            <li key={line}>{withLabels(line)}</li>
          ))}
        </ul>
      )
    case 'terms':
      return (
        <dl className={styles.terms}>
          {part.terms.map(([word, meaning]) => (
            <div key={word}>
              <dt>{word}</dt>
              <dd>{withLabels(meaning)}</dd>
            </div>
          ))}
        </dl>
      )
    case 'keys':
      return <KeyGroups groups={KEY_MAP} />
    case 'reckon':
      return <Reckon what={part.what} />
    case 'marks':
      return (
        <dl className={styles.terms}>
          {MARKS.map(([mark, meaning]) => (
            <div key={mark}>
              <dt>
                <MarkSign mark={mark} /> {mark}
              </dt>
              <dd>{meaning}</dd>
            </div>
          ))}
        </dl>
      )
  }
}

const MARKS: readonly (readonly [MarkKind, string])[] = [
  ['passed', 'signed, with its photos and readings'],
  ['next', 'may be worked on now'],
  ['held', 'next, but something stands against it: the reason stands beside it'],
  ['later', 'comes after the next one'],
  ['not needed', 'the manager said why; it stays on record'],
  ['as found', 'closed without repair, on the payer’s decision'],
]

/** What stands on a control is set apart from the sentence around it. */
function withLabels(line: string) {
  return line.split(/(‘[^’]+’)/).map((piece, at) =>
    piece.startsWith('‘') ? (
      <b key={at} className={styles.label}>
        {piece.slice(1, -1)}
      </b>
    ) : (
      piece
    ),
  )
}
