/** The two databases of a device: one for who is signed in here, one for each user. */
import { Database, type Engine } from "./open";
import { DEVICE_SCHEMA, type DeviceTables, USER_SCHEMA, type UserTables } from "./tables";

export type UserStore = Database<UserTables>;
export type DeviceStore = Database<DeviceTables>;

export interface StoreEvents {
  readonly onOutdated?: () => void;
  readonly onBlocked?: (blocked: boolean) => void;
}

export function openUserStore(engine: Engine, user: string, events: StoreEvents = {}): UserStore {
  return new Database<UserTables>({ name: `tareway:${user}`, schema: USER_SCHEMA, engine, ...events });
}

export function openDeviceStore(engine: Engine, events: StoreEvents = {}): DeviceStore {
  return new Database<DeviceTables>({ name: "tareway", schema: DEVICE_SCHEMA, engine, ...events });
}
