import { languages } from '../../domain/language/languages.ts'
import type { OwnerWeek, ReportPhoto } from '../../domain/report/owner-week-shapes.ts'
import { LetterBlock, Standings } from './letter-block.tsx'
import styles from './letter.module.css'

/** The owner's week on its sheet, as the print lays it out; a draft says on its head that it has not gone out. */
export function Letter({
  content,
  onCrop,
}: {
  readonly content: OwnerWeek
  /** A photo of which another part is to be shown. */
  readonly onCrop: (photo: ReportPhoto) => void
}) {
  const say = languages[content.language]
  const { paper } = say
  return (
    <article
      className={styles.sheet}
      lang={say.tag}
      aria-label={`${content.title}, ${content.subtitle}, ${paper.notIssued}`}
    >
      <p className={styles.stamp}>{paper.draft}</p>
      <header className={styles.head}>
        <p className="strong">{content.workshop}</p>
        <p className="small quiet">{paper.report(content.number, content.written)}</p>
      </header>
      <h2>{content.title}</h2>
      <p className="quiet">{content.subtitle}</p>
      <p>{content.greeting}</p>
      {content.opening.map((text) => (
        <p key={text} className={styles.opening}>
          {text}
        </p>
      ))}
      {content.words.map((text, index) => (
        <p key={index} className="pre">
          {text}
        </p>
      ))}
      {content.sections.map(({ heading, blocks }) => (
        <section key={heading} className={styles.section}>
          <h3>{heading}</h3>
          <Standings blocks={blocks} say={say} />
          {blocks.map((block, index) => (
            <LetterBlock key={index} block={block} say={say} onCrop={onCrop} />
          ))}
        </section>
      ))}
      <footer className={styles.cautions}>
        {content.cautions.map((text) => (
          <p key={text}>{text}</p>
        ))}
      </footer>
    </article>
  )
}
