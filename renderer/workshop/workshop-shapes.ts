import type { client } from '../client.ts'

export type Workshop = Awaited<ReturnType<typeof client.workshop.query>>
export type WorkshopPerson = Workshop['people'][number]
export type WorkshopParty = Workshop['parties'][number]
export type WorkshopOvertime = Workshop['overtime'][number]
export type WorkshopBay = Workshop['bays'][number]
export type Catalogue = Awaited<ReturnType<typeof client.catalogue.query>>
export type RepairTypeView = Catalogue['types'][number]
export type DeviceView = Awaited<ReturnType<typeof client.devices.query>>['devices'][number]
export type CopiesState = Awaited<ReturnType<typeof client.copies.query>>
export type CopyThere = Extract<
  Awaited<ReturnType<typeof client.copiesThere.query>>,
  { readonly ok: true }
>['value'][number]
export type ErasedContact = Awaited<ReturnType<typeof client.erased.query>>[number]
export type Erasing = Awaited<ReturnType<typeof client.erasing.query>>
export type NetworkState = Awaited<ReturnType<typeof client.network.query>>
export type UpdatesState = Awaited<ReturnType<typeof client.updates.query>>
export type CheckState = Awaited<ReturnType<typeof client.check.query>>
export type OpenNetwork = Extract<NetworkState, { kind: 'open' }>
