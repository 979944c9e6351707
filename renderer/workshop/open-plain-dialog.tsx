import { Button } from '../parts/form/button.tsx'
import { Dialog } from '../parts/form/dialog.tsx'
import styles from './network.module.css'

/** Says what is given up before the network is opened without encryption. */
export function OpenPlainDialog({
  onClose,
  onOpen,
}: {
  readonly onClose: () => void
  readonly onOpen: () => void
}) {
  return (
    <Dialog title="Open without encryption?" isOpen onClose={onClose}>
      <div className="stack">
        <p>Only for tablets that cannot be told to trust this computer. Then:</p>
        <ul className={styles.points}>
          <li>
            Whoever is in the network can read what is sent: photos, names, and each code as it is typed. They
            can also change it.
          </li>
          <li>
            Nobody can be sure that a tablet is talking to this computer and not to another one that pretends
            to be it.
          </li>
          <li>
            Panelwright cannot be installed on a tablet. It works without the host only while its page stays
            open.
          </li>
          <li>
            Tablets that were let in with encryption have to be let in anew. What they have not sent yet waits
            on them until it is opened with encryption again.
          </li>
        </ul>
        <div className="button-row end">
          <Button onClick={onClose}>Keep it closed</Button>
          <Button kind="warn" onClick={onOpen}>
            Open without encryption
          </Button>
        </div>
      </div>
    </Dialog>
  )
}
