import { useFieldArray } from 'react-hook-form'
import type { LayerId } from '../../domain/ids.ts'
import { Button, WordButton } from '../parts/form/button.tsx'
import { CheckField, NumberField, TextField } from '../parts/form/fields.tsx'
import { newId } from '../parts/form/new-id.ts'
import type { PlanForm } from './plan-form.ts'
import styles from './types.module.css'

/** The sheets of a repair from the inside out; the last one is the closing panel. */
export function LayerFields({ form }: { readonly form: PlanForm }) {
  const { control } = form
  const { fields, append, remove, move } = useFieldArray({ control, name: 'layers' })
  return (
    <div className={styles.rows}>
      {fields.map((each, index) => (
        <div key={each.id} className={styles.layerRow}>
          <TextField
            control={control}
            name={`layers.${index}.name`}
            label={index === fields.length - 1 ? `Layer ${index + 1}, closing` : `Layer ${index + 1}`}
          />
          <NumberField control={control} name={`layers.${index}.thicknessMm`} label="Thickness" unit="mm" />
          <CheckField control={control} name={`layers.${index}.loadBearing`} label="load-bearing" />
          <div className="row">
            {index > 0 && (
              <WordButton
                aria-label={`Move layer ${index + 1} inwards`}
                onClick={() => move(index, index - 1)}
              >
                inwards
              </WordButton>
            )}
            {fields.length > 1 && (
              <WordButton aria-label={`Remove layer ${index + 1}`} onClick={() => remove(index)}>
                remove
              </WordButton>
            )}
          </div>
        </div>
      ))}
      {fields.length < 12 && (
        <div>
          <Button
            onClick={() =>
              append({ layerId: newId<LayerId>(), name: '', thicknessMm: 1, loadBearing: false })
            }
          >
            Add a layer outside
          </Button>
        </div>
      )}
    </div>
  )
}
