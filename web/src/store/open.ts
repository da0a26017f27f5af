/** A database, opened once and opened again when the browser has closed it under the page. */
import Dexie, { liveQuery } from "dexie";
import { faultOf, isStorageError, StorageTrouble } from "./trouble";

export interface Engine {
  readonly indexedDB: IDBFactory;
  readonly IDBKeyRange: typeof IDBKeyRange;
}

export interface Opening {
  readonly name: string;
  readonly schema: Readonly<Record<string, string>>;
  readonly engine: Engine;
  /** Another tab has opened a newer version of this database: this page's code is old. */
  readonly onOutdated?: () => void;
  /** An older tab keeps this database from being opened, or no longer does. */
  readonly onBlocked?: (blocked: boolean) => void;
}

export class Database<Tables> {
  private readonly dexie: Dexie;

  constructor({ name, schema, engine, onOutdated, onBlocked }: Opening) {
    this.dexie = new Dexie(name, {
      indexedDB: engine.indexedDB,
      IDBKeyRange: engine.IDBKeyRange,
      // since Chromium 121 a commit is reported before it is on the disk, unless asked otherwise
      chromeTransactionDurability: "strict",
      // what is shown as saved has to be in the database, not in a library's copy
      cache: "disabled",
    });
    this.dexie.version(1).stores(schema);
    this.dexie.on("versionchange", ({ newVersion }) => {
      this.dexie.close();
      // another tab that deletes the database has signed out, and is not newer
      if (newVersion !== null) onOutdated?.();
    });
    this.dexie.on("blocked", () => onBlocked?.(true));
    this.dexie.on("ready", () => onBlocked?.(false), true);
  }

  get tables(): Tables {
    return this.dexie as unknown as Tables;
  }

  /** One transaction over all tables: all of it is on the disk when this resolves, or none of it ever. */
  change<T>(work: (tables: Tables) => Promise<T>): Promise<T> {
    return this.tried(() => this.dexie.transaction("rw!", this.dexie.tables, async () => work(this.tables)));
  }

  /** A consistent look at all tables. */
  read<T>(look: (tables: Tables) => Promise<T>): Promise<T> {
    return this.tried(() => this.dexie.transaction("r!", this.dexie.tables, async () => look(this.tables)));
  }

  /** Call `next` now and after each change, in whichever tab, of what `look` has read. */
  watch<T>(
    look: (tables: Tables) => Promise<T>,
    next: (value: T) => void,
    failed?: (error: StorageTrouble) => void,
  ) {
    const query = liveQuery(() =>
      this.dexie.transaction("r", this.dexie.tables, async () => look(this.tables)),
    );
    const { unsubscribe } = query.subscribe({ next, error: (error) => failed?.(troubleOf(error)) });
    return unsubscribe;
  }

  close(): void {
    this.dexie.close();
  }

  delete(): Promise<void> {
    return this.dexie.delete();
  }

  /** Once more on a fresh connection when the old one was gone; nothing was written then. */
  private async tried<T>(work: () => PromiseLike<T>): Promise<T> {
    try {
      return await work();
    } catch (error) {
      if (!isStorageError(error)) throw error;
      if (faultOf(error) !== "closed") throw troubleOf(error);
    }
    this.dexie.close({ disableAutoOpen: false });
    try {
      await this.dexie.open();
      return await work();
    } catch (error) {
      throw isStorageError(error) ? troubleOf(error) : error;
    }
  }
}

function troubleOf(error: unknown): StorageTrouble {
  return new StorageTrouble(faultOf(error), error);
}
