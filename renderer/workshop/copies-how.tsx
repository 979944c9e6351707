import styles from './copies.module.css'

/** How a copy is restored, what is in one and what is not, in words. */
export function CopiesHow({ isSealed }: { readonly isSealed: boolean }) {
  return (
    <section className="stack-tight">
      <h2>When this computer is lost</h2>
      <ol className={styles.steps}>
        <li>Install Panelwright on another computer, or on this one with a new disk.</li>
        <li>
          Attach the disk with the copies and start Panelwright. It finds no workshop and asks what to do.
        </li>
        <li>
          Choose ‘Restore from a copy’ and give the folder. All of the copy is read and checked before
          anything of it is shown.
        </li>
        <li>
          {isSealed &&
            'Type the passphrase; without it nobody can open the copy, and there is no other way in. '}
          A manager chooses a new code in that window, sets those of the others under People, and lets the
          devices in again.
        </li>
      </ol>
      <p className={`quiet ${styles.prose}`}>
        A copy holds every record, photo and issued report. Codes, keys and paired devices are not in it. What
        was entered after it was made comes again from the devices that still keep it.
      </p>
    </section>
  )
}
