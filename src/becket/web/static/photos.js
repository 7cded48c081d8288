/*
 * The photos of this phone: each is kept until the server has all of it.
 *
 * In:    files that the camera wrote; the server's answer about each piece.
 * Out:   an event with the hash of the file as it is, and the file itself, piece by piece.
 * Never: a photo let go before the server has it whole; a photo sent before its event; a photo changed on the way.
 */

import { answer, inOneGo } from "./db.js";
import { onChange, put, tellChange } from "./outbox.js";
import { newEvent } from "./view.js";

/** Largest file that is taken [bytes]. */
export const MOST_BYTES = 25_000_000;
const PIECE = 131_072; // bytes a request: what a bad signal loses is at most that
const PATIENCE = 60_000; // ms for one piece
const WAITS = [5, 15, 30, 60, 120]; // s after a try that failed
const MOST_BACK = 3; // times that an upload may be told to go back before it is left for later
const FOR_GOOD = new Set([400, 409, 413, 415, 422]);

let running = null;
let failures = 0;
let notBefore = 0;

/** A photo that is not taken. `word` is the key of the words for it. */
export class PhotoError extends Error {
    /**
     * @param {string} reason
     * @param {Object<string, *>} [values] for the places in the words
     */
    constructor(reason, values = {}) {
        super(`no photo: ${reason}`);
        this.name = "PhotoError";
        this.word = `photo.${reason}`;
        this.values = values;
    }
}

/**
 * Keep a photo and its event on this phone. Comes back when both are on the disk.
 * @param {Blob} file as the camera wrote it
 * @param {{crane: string, run?: ?string, item?: ?string, pattern?: ?string, note?: string, person?: string, role: string,
 *     shown?: object}} about
 * @returns {Promise<object>} the event
 * @throws {PhotoError|KeepError} nothing was kept
 */
export async function keepPhoto(file, { crane, run = null, item = null, pattern = null, note = "", person, role, shown }) {
    const bytes = await readJpeg(file);
    const photo = hex(await crypto.subtle.digest("SHA-256", bytes));
    const entered = { photo, bytes: bytes.byteLength, item, pattern, note };
    const event = await newEvent("photo_taken", { crane, run, role, person, shown, entered });
    const blob = new Blob([bytes], { type: "image/jpeg" });
    await inOneGo(["photos"], "readwrite", ({ photos }) => {
        photos.put({ key: event.key, photo, crane, run, tick: event.tick, event, blob, why: null, at: null });
    });
    try {
        await put(event);
    } catch (error) {
        await letGo(event.key);
        throw error;
    }
    return event;
}

/**
 * Return the photos that wait on this phone or were refused, oldest first.
 * @returns {Promise<{key: string, photo: string, crane: string, run: ?string, event: object, blob: Blob, why: ?string,
 *     at: ?string}[]>}
 */
export async function photoItems() {
    const found = await inOneGo(["photos"], "readonly", ({ photos }) => answer(photos.getAll()));
    return found.sort((one, other) => one.tick - other.tick);
}

/**
 * Send a refused photo once more.
 * @param {string} key of its event
 * @returns {Promise<void>}
 */
export async function tryPhotoAgain(key) {
    await settle(key, null);
    notBefore = 0;
    void deliverPhotos();
}

/**
 * Send what waits, now and whenever something changes, until the server has it.
 * @returns {void}
 */
export function startPhotos() {
    onChange(() => void deliverPhotos());
    addEventListener("online", () => {
        notBefore = 0;
        void deliverPhotos();
    });
    void deliverPhotos();
}

/**
 * Send every photo whose event the server has. Never throws: what could not be sent stays.
 * @returns {Promise<void>}
 */
export function deliverPhotos() {
    if (Date.now() < notBefore) {
        return Promise.resolve();
    }
    running ??= inTurn(deliverAll).catch(() => failed()).finally(() => {
        running = null;
    });
    return running;
}

async function deliverAll() {
    for (const record of await photoItems()) {
        if (record.why !== null || !(await isEventThere(record))) {
            continue;
        }
        const { done, why } = await upload(record);
        if (why) {
            await settle(record.key, why);
        } else if (done) {
            await letGo(record.key);
        } else {
            failed();
            return;
        }
        failures = 0;
        tellChange();
    }
}

/** The event goes first. One that this phone lost before it was in the outbox is kept again. */
async function isEventThere({ key, event }) {
    const [sent, refused] = await inOneGo(["events", "refused"], "readonly", (stores) =>
        Promise.all([answer(stores.events.get(key)), answer(stores.refused.getKey(key))]),
    );
    if (sent === undefined && refused === undefined) {
        await put(event);
    }
    return Number.isInteger(sent?.number);
}

/** Send a photo from where the server says that it has come to. */
async function upload({ key, photo, crane, blob }) {
    const url = `/api/photo/${encodeURIComponent(crane)}/${photo}?event=${encodeURIComponent(key)}`;
    let found = await asked(url, {});
    for (let back = 0; found.offset !== undefined && !found.whole; ) {
        const { offset } = found;
        const body = blob.slice(offset, offset + PIECE, "image/jpeg");
        found = await asked(`${url}&offset=${offset}`, { method: "PUT", headers: { "content-type": "image/jpeg" }, body });
        back += Number(!found.whole && found.offset !== undefined && found.offset <= offset);
        if (back > MOST_BACK) {
            return { done: false };
        }
    }
    return { done: found.whole === true, why: found.why };
}

/** What the server answers; nothing where it cannot be reached or is in trouble. */
async function asked(url, how) {
    try {
        const signal = AbortSignal.timeout(PATIENCE);
        const reply = await fetch(url, { ...how, cache: "no-store", redirect: "error", signal });
        const found = await reply.json().catch(() => ({}));
        if (reply.ok) {
            return Number.isInteger(found.offset) ? found : {};
        }
        return FOR_GOOD.has(reply.status) ? { why: found.refused ?? `The server answered ${reply.status}.` } : {};
    } catch {
        return {};
    }
}

function failed() {
    notBefore = Date.now() + WAITS[Math.min(failures, WAITS.length - 1)] * 1000;
    failures += 1;
}

async function settle(key, why) {
    await inOneGo(["photos"], "readwrite", async ({ photos }) => {
        const found = await answer(photos.get(key));
        if (found) {
            photos.put({ ...found, why, at: why === null ? null : new Date().toISOString() });
        }
    });
    tellChange();
}

function letGo(key) {
    return inOneGo(["photos"], "readwrite", ({ photos }) => {
        photos.delete(key);
    });
}

async function readJpeg(file) {
    if (!globalThis.crypto?.subtle) {
        throw new PhotoError("insecure");
    }
    if (file.size > MOST_BYTES) {
        throw new PhotoError("too_large", { size: Math.ceil(file.size / 1e6) });
    }
    const bytes = await file.arrayBuffer();
    const [one, two, three] = new Uint8Array(bytes.slice(0, 3));
    if (one !== 0xff || two !== 0xd8 || three !== 0xff) {
        throw new PhotoError("not_jpeg");
    }
    return bytes;
}

function hex(buffer) {
    return Array.from(new Uint8Array(buffer), (one) => one.toString(16).padStart(2, "0")).join("");
}

/** One tab sends at a time where the browser has locks; without them the server sorts the pieces out. */
async function inTurn(work) {
    if (!globalThis.navigator?.locks) {
        return work();
    }
    return navigator.locks.request("becket-photos", { ifAvailable: true }, (lock) => (lock ? work() : undefined));
}
