import type { CarToChoose, CardProposal } from '../../domain/import/photo-proposal.ts'
import { useState } from 'react'
import type { PhotoServes } from '../../domain/facts/work-facts.ts'
import { GATES, type Gate } from '../../domain/gates.ts'
import type { LayerId, RepairId, TaskId } from '../../domain/ids.ts'
import { reasonWords } from '../../domain/import/photo-match.ts'
import { plural } from '../../domain/text/words.ts'
import { photoUrl } from '../client.ts'
import { asChoices } from '../parts/form/as-choices.ts'
import { Button } from '../parts/form/button.tsx'
import { Dialog } from '../parts/form/dialog.tsx'
import { ChoiceRow, SelectInput } from '../parts/form/inputs.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import { carById } from './card-shapes.ts'
import { placeWords } from './card-words.ts'
import styles from './card-dialogs.module.css'
import cardStyles from './card.module.css'
import { fitToPlace, placeKey, type Place, type PlacedPhoto } from './places.ts'
import { SHOWS_CHOICES } from '../parts/photos/shown-words.ts'

/** Where one or more photos go: one tap for what fits, or any gate, task or car by hand. */
export function PlaceDialog({
  photos,
  proposal,
  onPlace,
  onClose,
}: {
  readonly photos: readonly PlacedPhoto[]
  readonly proposal: CardProposal
  readonly onPlace: (place: Place) => void
  readonly onClose: () => void
}) {
  const when = useWhen()
  const [first] = photos
  const current = first?.place ?? null
  const fits = photos.length === 1 && first !== undefined ? [...first.fits, ...first.others] : []
  const [place, setPlace] = useState<Place | null>(current ?? startOf(proposal, first))
  const car = place === null ? undefined : carById(proposal, place.carId)
  return (
    <Dialog
      title={
        photos.length === 1
          ? 'Where does this photo belong?'
          : `Where do these ${photos.length} photos belong?`
      }
      isOpen
      onClose={onClose}
      size="wide"
    >
      <div className="form">
        <div className={photos.length === 1 ? styles.truth : 'stack'}>
          <Pictures photos={photos} />
          {fits.length > 0 && (
            <ul className={cardStyles.fits} aria-label="What lies close to it">
              {fits.map((fit) => (
                <li key={placeKey(fitToPlace(fit))}>
                  <Button onClick={() => onPlace(fitToPlace(fit))}>
                    {placeWords(proposal, fitToPlace(fit))}
                  </Button>
                  <span className="quiet small">
                    {first === undefined || first.taken === null
                      ? fit.why
                      : reasonWords(first.taken, fit, when.zone)}
                  </span>
                </li>
              ))}
            </ul>
          )}
        </div>
        <SelectInput
          label="Car"
          choices={proposal.cars.map(({ carId, name, shellNumber }) => ({
            value: carId,
            words: `${name}, shell ${shellNumber}`,
          }))}
          value={place?.carId ?? null}
          onChange={(carId) => setPlace(carId === null ? null : { carId, serves: { what: 'car' } })}
          {...(place === null && { none: 'choose a car' })}
        />
        {place !== null && car !== undefined && (
          <ServesFields
            car={car}
            serves={place.serves}
            onChange={(serves) => setPlace({ carId: place.carId, serves })}
          />
        )}
        <div className="button-row end">
          <Button onClick={onClose}>Cancel</Button>
          <Button kind="main" disabled={place === null} onClick={() => place !== null && onPlace(place)}>
            {photos.length === 1 ? 'Put it there' : `Put all ${photos.length} there`}
          </Button>
        </div>
      </div>
    </Dialog>
  )
}

function Pictures({ photos }: { readonly photos: readonly PlacedPhoto[] }) {
  const [first, ...more] = photos
  if (first !== undefined && more.length === 0)
    return <img className={styles.large} src={photoUrl(first.sha256, 'screen')} alt="" />
  return (
    <div className={styles.asked}>
      {photos.slice(0, MOST_SHOWN).map(({ sha256 }) => (
        <img key={sha256} className={styles.small} src={photoUrl(sha256, 'thumb')} alt="" />
      ))}
      {photos.length > MOST_SHOWN && (
        <span className="quiet">and {plural('more photo', photos.length - MOST_SHOWN)}</span>
      )}
    </div>
  )
}

/** Pictures beside each other before the rest is a count. */
const MOST_SHOWN = 6

/** The only car, or that of the nearest work; else the person chooses. */
function startOf({ cars }: CardProposal, photo: PlacedPhoto | undefined): Place | null {
  const near = photo?.fits[0] ?? photo?.others[0]
  if (near !== undefined) return fitToPlace(near)
  const [only, ...others] = cars
  return only !== undefined && others.length === 0 ? { carId: only.carId, serves: { what: 'car' } } : null
}

function ServesFields({
  car,
  serves,
  onChange,
}: {
  readonly car: CarToChoose
  readonly serves: PhotoServes
  readonly onChange: (serves: PhotoServes) => void
}) {
  const repair = serves.what === 'gate' ? car.repairs.find(({ id }) => id === serves.repairId) : undefined
  return (
    <>
      <SelectInput
        label="Work"
        choices={[
          { value: WHOLE, words: 'the car as a whole' },
          ...car.repairs.map(({ id, name }) => ({ value: id as string, words: name, group: 'Repairs' })),
          ...car.tasks.map(({ id, name }) => ({ value: id as string, words: name, group: 'Tasks' })),
        ]}
        value={workOf(serves)}
        onChange={(id) => onChange(toServes(car, id ?? WHOLE))}
      />
      {serves.what === 'gate' && (
        <>
          <div className="field-row">
            <SelectInput
              label="Gate"
              choices={asChoices(GATES)}
              value={serves.gate}
              onChange={(gate: Gate | null) => gate !== null && onChange({ ...serves, gate })}
            />
            <SelectInput
              label="Layer"
              choices={(repair?.layers ?? []).map(({ id, name }) => ({ value: id, words: name }))}
              value={serves.layerId}
              onChange={(layerId: LayerId | null) => onChange({ ...serves, layerId })}
              none="the repair as a whole"
            />
          </div>
          <ChoiceRow
            label="What it shows"
            choices={SHOWS_CHOICES}
            value={serves.shows}
            onChange={(shows) => onChange({ ...serves, shows })}
          />
        </>
      )}
    </>
  )
}

const WHOLE = 'the car'

function workOf(serves: PhotoServes): string {
  if (serves.what === 'gate') return serves.repairId
  return serves.what === 'task' ? serves.taskId : WHOLE
}

/** A repair starts at its next gate. */
function toServes({ repairs }: CarToChoose, id: string): PhotoServes {
  if (id === WHOLE) return { what: 'car' }
  const repair = repairs.find((each) => each.id === id)
  if (repair === undefined) return { what: 'task', taskId: id as TaskId }
  return {
    what: 'gate',
    repairId: id as RepairId,
    gate: repair.next ?? 'painted',
    shows: 'work',
    layerId: null,
  }
}
