import type {
  FigureRow,
  PhotoPlate,
  ReportBlock,
  ReportPhoto,
} from '../../domain/report/owner-week-shapes.ts'
import type { OwnerLanguage } from '../../domain/language/owner-language.ts'
import { photoUrl } from '../client.ts'
import { WordButton } from '../parts/form/button.tsx'
import { GateStrip } from '../parts/gates/gate-strip.tsx'
import { MarkedPhoto } from '../parts/photos/marked-photo.tsx'
import { Section } from '../parts/drawing/section.tsx'
import { CroppedPhoto } from './cropped-photo.tsx'
import styles from './letter.module.css'

interface InLetter {
  readonly say: OwnerLanguage
  readonly onCrop: (photo: ReportPhoto) => void
}

type BlockOf<K extends ReportBlock['kind']> = Extract<ReportBlock, { readonly kind: K }>

/** Width in units that a section is drawn for here; two stand in a row. */
const DRAWN_WIDTH = 320

/** One block of a section; how repairs stand is drawn apart, by {@link Standings}. */
export function LetterBlock({ block, say, onCrop }: InLetter & { readonly block: ReportBlock }) {
  switch (block.kind) {
    case 'text':
      return <p>{block.text}</p>
    case 'list':
      return (
        <ul className={styles.list}>
          {block.items.map((item) => (
            <li key={item}>{item}</li>
          ))}
        </ul>
      )
    case 'repair':
      return (
        <div className="stack-tight">
          <h4>{block.title}</h4>
          {block.texts.map((text) => (
            <p key={text}>{text}</p>
          ))}
          <Plates plates={block.plates} say={say} onCrop={onCrop} />
        </div>
      )
    case 'plates':
      return <Plates plates={block.plates} say={say} onCrop={onCrop} />
    case 'question':
      return <Question block={block} say={say} onCrop={onCrop} />
    case 'figures':
      return <Figures head={block.head} rows={block.rows} />
    case 'standing':
      return null
  }
}

/** What the owner must answer stands out: its hours beside its title, a bar along its edge. */
function Question({ block, say, onCrop }: InLetter & { readonly block: BlockOf<'question'> }) {
  return (
    <div className={styles.question}>
      <div className="spread">
        <h4>{block.title}</h4>
        <span className="strong">{block.hours}</span>
      </div>
      {block.texts.map((text) => (
        <p key={text}>{text}</p>
      ))}
      <Plates plates={block.plates} say={say} onCrop={onCrop} />
    </div>
  )
}

/** How the repairs stand, drawn two in a row. */
export function Standings({
  blocks,
  say,
}: Pick<InLetter, 'say'> & { readonly blocks: readonly ReportBlock[] }) {
  const drawn = blocks.filter((block) => block.kind === 'standing')
  if (drawn.length === 0) return null
  return (
    <div className={styles.standings}>
      {drawn.map((block) => (
        <figure key={block.repairId} className="stack-tight">
          <figcaption className="strong">{block.title}</figcaption>
          <Section section={block.section} width={DRAWN_WIDTH} say={say} />
          <GateStrip marks={block.marks} say={say} />
          <p className="small quiet">{block.text}</p>
        </figure>
      ))}
    </div>
  )
}

function Figures({ head, rows }: { readonly head: readonly string[]; readonly rows: readonly FigureRow[] }) {
  const plain = rows.filter(({ isTotal }) => !isTotal)
  const totals = rows.filter(({ isTotal }) => isTotal)
  return (
    <div className="table-frame">
      <table className="table">
        <thead>
          <tr>
            {head.map((words, index) => (
              <th key={index} scope="col" className={index === 0 ? undefined : 'number'}>
                {words}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {plain.map((row, index) => (
            <FigureLine key={index} row={row} />
          ))}
        </tbody>
        {totals.length > 0 && (
          <tfoot>
            {totals.map((row, index) => (
              <FigureLine key={index} row={row} />
            ))}
          </tfoot>
        )}
      </table>
    </div>
  )
}

function FigureLine({ row: { label, figures } }: { readonly row: FigureRow }) {
  return (
    <tr>
      <th scope="row">{label}</th>
      {figures.map((figure, index) => (
        <td key={index} className="number">
          {figure}
        </td>
      ))}
    </tr>
  )
}

/** Before and after stand side by side. */
function Plates({ plates, say, onCrop }: InLetter & { readonly plates: readonly PhotoPlate[] }) {
  if (plates.length === 0) return null
  return (
    <div className={styles.plates}>
      {plates.map((plate) =>
        plate.kind === 'single' ? (
          <Plate key={plate.photo.attachmentId} photo={plate.photo} onCrop={onCrop} />
        ) : (
          <div key={plate.after.attachmentId} className={styles.pair}>
            <Plate photo={plate.before} lead={say.paper.before} onCrop={onCrop} />
            <Plate photo={plate.after} lead={say.paper.after} onCrop={onCrop} />
          </div>
        ),
      )}
    </div>
  )
}

function Plate({
  photo,
  lead,
  onCrop,
}: Pick<InLetter, 'onCrop'> & { readonly photo: ReportPhoto; readonly lead?: string }) {
  return (
    <figure className={styles.plate}>
      {photo.crop === null ? (
        <MarkedPhoto
          marks={photo.marks}
          fit="contain"
          src={photoUrl(photo.sha256, 'thumb')}
          alt={photo.caption}
          loading="lazy"
          decoding="async"
          width={400}
          height={300}
        />
      ) : (
        <CroppedPhoto photo={photo} crop={photo.crop} />
      )}
      <figcaption className="small">
        <span className="strong">
          {lead !== undefined && `${lead}, `}
          {photo.taken}
        </span>{' '}
        {photo.caption}
      </figcaption>
      <WordButton className="small" onClick={() => onCrop(photo)}>
        {photo.crop === null ? 'Crop' : 'Change the crop'}
        <span className="hidden-word"> of {photo.caption}</span>
      </WordButton>
    </figure>
  )
}
