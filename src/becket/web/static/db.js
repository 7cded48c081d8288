/*
 * What this phone keeps: one IndexedDB database with versioned stores.
 *
 * In:    records of the other modules.
 * Out:   the same records, after a reload, a crash, a flat battery.
 * Never: a write called kept before the browser says that it is complete.
 *
 * Stores: events {key, crane, run, tick, event, number, received, hash, own, box}, outbox {key, tick, added},
 * refused {key, event, box, why, at}, scripts {id, crane, script}, meta and keys (by name),
 * photos {key, photo, crane, run, tick, event, blob, why, at}.
 */

const NAME = "becket";
const VERSION = 2;

/** One upgrade for each version: a step is never changed once a phone may have taken it. */
const UPGRADES = [
    (database) => {
        const events = database.createObjectStore("events", { keyPath: "key" });
        events.createIndex("crane", "crane");
        events.createIndex("run", "run");
        events.createIndex("tick", "tick");
        database.createObjectStore("outbox", { keyPath: "key" }).createIndex("order", ["tick", "key"]);
        database.createObjectStore("refused", { keyPath: "key" });
        database.createObjectStore("scripts", { keyPath: "id" }).createIndex("crane", "crane");
        database.createObjectStore("meta");
        database.createObjectStore("keys");
    },
    (database) => {
        database.createObjectStore("photos", { keyPath: "key" });
    },
];

let opened = null;

/** Something could not be kept on this phone. `reason` is "full", "blocked", "private", "newer" or "broken". */
export class KeepError extends Error {
    /**
     * @param {string} reason
     * @param {unknown} [cause]
     */
    constructor(reason, cause) {
        super(`cannot keep: ${reason}`, { cause });
        this.name = "KeepError";
        this.reason = reason;
        /** Key of the words for it in the catalogue. */
        this.word = `strap.cannot_keep_${reason}`;
    }
}

/**
 * Do work in one transaction and return its result when the browser says that all of it is on the disk.
 * @param {string[]} stores names
 * @param {"readonly"|"readwrite"} mode
 * @param {(stores: Object<string, IDBObjectStore>) => unknown} work awaits nothing but `answer(request)`
 * @returns {Promise<any>} what the work returns
 */
export async function inOneGo(stores, mode, work) {
    const database = await open();
    let transaction;
    try {
        transaction = database.transaction(stores, mode, mode === "readwrite" ? { durability: "strict" } : undefined);
    } catch (error) {
        opened = null;
        throw asKeepError(error);
    }
    const complete = new Promise((resolve, reject) => {
        transaction.oncomplete = resolve;
        transaction.onabort = () => reject(asKeepError(transaction.error));
    });
    complete.catch(() => undefined);
    let result;
    try {
        result = await work(Object.fromEntries(stores.map((name) => [name, transaction.objectStore(name)])));
    } catch (error) {
        abort(transaction);
        throw asKeepError(error);
    }
    await complete;
    return result;
}

/**
 * Return what a request answers.
 * @param {IDBRequest} request
 * @returns {Promise<any>}
 */
export function answer(request) {
    return new Promise((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error);
    });
}

/**
 * Return a small record kept by name, or undefined.
 * @param {string} name
 * @returns {Promise<any>}
 */
export function readMeta(name) {
    return inOneGo(["meta"], "readonly", ({ meta }) => answer(meta.get(name)));
}

/**
 * Keep a small record by name.
 * @param {string} name
 * @param {unknown} value
 * @returns {Promise<void>}
 */
export function writeMeta(name, value) {
    return inOneGo(["meta"], "readwrite", ({ meta }) => {
        meta.put(value, name);
    });
}

/**
 * Change a small record by name in one go, so that two tabs do not undo each other.
 * @param {string} name
 * @param {(old: any) => any} change
 * @returns {Promise<any>} the new value
 */
export function changeMeta(name, change) {
    return inOneGo(["meta"], "readwrite", async ({ meta }) => {
        const value = change(await answer(meta.get(name)));
        meta.put(value, name);
        return value;
    });
}

/**
 * Return letters and digits that nobody else makes.
 * @param {number} [bytes]
 * @returns {string} hex
 */
export function randomName(bytes = 16) {
    const found = crypto.getRandomValues(new Uint8Array(bytes));
    return Array.from(found, (one) => one.toString(16).padStart(2, "0")).join("");
}

function open() {
    opened ??= openNow().catch((error) => {
        opened = null;
        throw error;
    });
    return opened;
}

function openNow() {
    return new Promise((resolve, reject) => {
        let request;
        try {
            request = indexedDB.open(NAME, VERSION);
        } catch (error) {
            reject(new KeepError("private", error));
            return;
        }
        request.onupgradeneeded = (found) => {
            UPGRADES.slice(found.oldVersion).forEach((step) => step(request.result, request.transaction));
        };
        request.onblocked = () => reject(new KeepError("blocked"));
        request.onerror = () => reject(asKeepError(request.error, "private"));
        request.onsuccess = () => resolve(watched(request.result));
    });
}

function watched(database) {
    database.onversionchange = () => {
        database.close();
        opened = null;
    };
    database.onclose = () => {
        opened = null;
    };
    return database;
}

function asKeepError(error, otherwise = "broken") {
    if (error instanceof KeepError) {
        return error;
    }
    const reasons = { QuotaExceededError: "full", VersionError: "newer", SecurityError: "private" };
    return new KeepError(reasons[error?.name] ?? otherwise, error);
}

function abort(transaction) {
    try {
        transaction.abort();
    } catch {
        // it has already ended by itself
    }
}
