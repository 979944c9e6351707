import styles from './key-groups.module.css'
import { isOwnWindow, keyName } from './key-names.ts'
import type { KeyGroup, KeyLine } from './keys.ts'
import { setSingleKeys, useSingleKeys } from './single-keys.ts'
import { CheckInput } from '../parts/form/inputs.tsx'

/** Keys by where they work, and the switch of those that are pressed alone. */
export function KeyGroups({ groups }: { readonly groups: readonly KeyGroup[] }) {
  const hasSingleKeys = useSingleKeys()
  return (
    <div className="stack">
      <CheckInput
        label="The keys / and ? work on their own on this device. Switch them off where you speak to type."
        value={hasSingleKeys}
        onChange={setSingleKeys}
      />
      <div className={styles.groups}>
        {groups.map(({ where, lines }) => (
          <section key={where} className={styles.group}>
            <h3>{where}</h3>
            <dl className={styles.lines}>
              {lines.map((line) => (
                <div key={line.does}>
                  <dt className={styles.keys}>
                    {namesOf(line).map((key) => (
                      <kbd key={key} className={styles.key}>
                        {key}
                      </kbd>
                    ))}
                  </dt>
                  <dd>
                    {line.does}
                    {line.isSingle === true && !hasSingleKeys && (
                      <span className="quiet"> (switched off)</span>
                    )}
                  </dd>
                </div>
              ))}
            </dl>
          </section>
        ))}
      </div>
    </div>
  )
}

/** The figures of the screens go with Ctrl too where no tabs are changed by it. */
function namesOf({ keys }: KeyLine): readonly string[] {
  const all = keys.flatMap((key) =>
    key.startsWith('Alt+') && isOwnWindow() ? [key, key.replace('Alt+', 'Mod+')] : [key],
  )
  return all.map(keyName)
}
