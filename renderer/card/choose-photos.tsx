import { useRef } from 'react'
import { Button } from '../parts/form/button.tsx'
import { PHOTO_TYPES } from '../parts/photos/use-photo-inputs.tsx'
import styles from './card.module.css'

/** Some photos, or a whole folder with what lies in it. */
export function ChoosePhotos({
  isMain = false,
  onChoose,
}: {
  readonly isMain?: boolean
  readonly onChoose: (files: readonly File[]) => Promise<void>
}) {
  const files = useRef<HTMLInputElement>(null)
  const folder = useRef<HTMLInputElement>(null)
  const take = (input: HTMLInputElement) => {
    const chosen = [...(input.files ?? [])]
    // Chosen again, the same folder must count as a change.
    input.value = ''
    if (chosen.length > 0) void onChoose(chosen)
  }
  return (
    <div className={isMain ? styles.choose : `button-row ${styles.add}`}>
      <Button kind={isMain ? 'main' : 'plain'} onClick={() => folder.current?.click()}>
        {isMain ? 'Choose a card or folder' : 'Add a folder'}
      </Button>
      <Button onClick={() => files.current?.click()}>{isMain ? 'Choose photos' : 'Add photos'}</Button>
      <input
        ref={folder}
        hidden
        type="file"
        multiple
        // React knows the attribute, its types do not.
        {...{ webkitdirectory: '' }}
        aria-label="Photos of a folder"
        onChange={(event) => take(event.currentTarget)}
      />
      <input
        ref={files}
        hidden
        type="file"
        accept={PHOTO_TYPES}
        multiple
        aria-label="Photos one by one"
        onChange={(event) => take(event.currentTarget)}
      />
    </div>
  )
}
