/*
 * Blind entries, hidden on this phone until both have counted.
 *
 * In:    what a person entered alone.
 * Out:   a box that only this browser opens: AES-GCM under a key that never leaves the browser's key store.
 * Never: the value in the clear in a database, a cache, an address, a title or the page.
 */

import { answer, inOneGo } from "./db.js";

const KEY = "blind";

/** This phone has no way to hide a count, or can no longer open one. `reason` is "insecure" or "lost". */
export class SealError extends Error {
    /** @param {"insecure"|"lost"} reason */
    constructor(reason) {
        super(`cannot seal: ${reason}`);
        this.name = "SealError";
        this.reason = reason;
        /** Key of the words for it in the catalogue. */
        this.word = `strap.cannot_seal_${reason}`;
    }
}

/**
 * Return whether this page can hide a count: a browser gives its ciphers only to https and to the machine itself.
 * @returns {boolean}
 */
export function canSeal() {
    return Boolean(globalThis.crypto?.subtle);
}

/**
 * Return what was entered, in a box; made before any transaction is begun.
 * @param {object} entered
 * @returns {Promise<{iv: Uint8Array, data: ArrayBuffer}>}
 */
export async function seal(entered) {
    if (!canSeal()) {
        throw new SealError("insecure");
    }
    const iv = crypto.getRandomValues(new Uint8Array(12));
    const plain = new TextEncoder().encode(padded(JSON.stringify(entered)));
    return { iv, data: await crypto.subtle.encrypt({ name: "AES-GCM", iv }, await theKey(), plain) };
}

/**
 * Return what is in a box.
 * @param {{iv: Uint8Array, data: ArrayBuffer}} box
 * @returns {Promise<object>}
 */
export async function unseal(box) {
    if (!canSeal()) {
        throw new SealError("insecure");
    }
    try {
        const plain = await crypto.subtle.decrypt({ name: "AES-GCM", iv: box.iv }, await theKey(), box.data);
        return JSON.parse(new TextDecoder().decode(plain));
    } catch {
        throw new SealError("lost");
    }
}

/**
 * Return what stands in place of a sealed entry, the same as from the server.
 * @param {{item: string, round: number}} entered
 * @returns {{item: string, round: number, sealed: true}}
 */
export function redacted(entered) {
    return { item: entered.item, round: entered.round, sealed: true };
}

/** Blanks up to a whole 512 characters: the length of a box tells nothing of the count in it. */
function padded(text) {
    return text.padEnd(Math.ceil(text.length / 512) * 512, " ");
}

async function theKey() {
    const found = await inOneGo(["keys"], "readonly", ({ keys }) => answer(keys.get(KEY)));
    if (found) {
        return found;
    }
    const made = await crypto.subtle.generateKey({ name: "AES-GCM", length: 256 }, false, ["encrypt", "decrypt"]);
    return inOneGo(["keys"], "readwrite", async ({ keys }) => {
        const other = await answer(keys.get(KEY));
        if (other) {
            return other;
        }
        keys.put(made, KEY);
        return made;
    });
}
