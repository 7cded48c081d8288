/*
 * Whether the browser keeps what is on this phone.
 *
 * In:    what the browser says of its storage.
 * Out:   kept, not kept, or not known; room left.
 * Never: a promise that the browser did not make.
 */

import { readMeta, writeMeta } from "./db.js";

/**
 * Ask the browser once, after the first entry, to keep what is on this phone.
 * @returns {Promise<void>}
 */
export async function askToPersist() {
    const storage = globalThis.navigator?.storage;
    if (!storage?.persist || (await readMeta("asked_to_persist"))) {
        return;
    }
    await writeMeta("asked_to_persist", new Date().toISOString());
    await storage.persist();
}

/**
 * Return whether the browser keeps what is on this phone, and how much room it leaves.
 * @returns {Promise<{disk: "kept"|"not"|"unknown", room: ?number}>} room [MB]
 */
export async function storageState() {
    const storage = globalThis.navigator?.storage;
    const isKept = await storage?.persisted?.().catch(() => undefined);
    const { quota, usage } = (await storage?.estimate?.().catch(() => undefined)) ?? {};
    const disk = isKept === undefined ? "unknown" : isKept ? "kept" : "not";
    return { disk, room: quota === undefined ? null : Math.floor((quota - usage) / 1e6) };
}
