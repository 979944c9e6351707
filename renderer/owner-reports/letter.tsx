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
  return (
    <article className={styles.sheet} aria-label={`${content.title}, ${content.subtitle}, not issued`}>
      <p className={styles.stamp}>Draft, not issued</p>
      <header className={styles.head}>
        <p className="strong">{content.workshop}</p>
        <p className="small quiet">
          Report {content.number}, {content.written}
        </p>
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
          <Standings blocks={blocks} />
          {blocks.map((block, index) => (
            <LetterBlock key={index} block={block} onCrop={onCrop} />
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
