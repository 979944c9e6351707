import { useActor } from '../parts/actor.tsx'
import { useWhen } from '../parts/when.tsx'
import type { Workshop } from './workshop-shapes.ts'

/** Every window and tablet that has been let in. */
export function DevicesSheet({ view }: { readonly view: Workshop }) {
  const when = useWhen()
  const { session } = useActor()
  return (
    <section className="stack-tight">
      <h2>Devices that were let in</h2>
      <p className="quiet">
        A device gets in with the address that Panelwright shows where it runs. What is signed on any of them
        still needs the person’s own code.
      </p>
      <ul className="lines">
        {view.devices.map((device) => (
          <li key={device.id} className="line">
            <span>
              <span className="strong">{device.name}</span>
              {device.id === session.device.id && ', this one'}
            </span>
            <span className="small quiet">since {when.dayAndTime(Date.parse(device.paired))}</span>
          </li>
        ))}
      </ul>
    </section>
  )
}
