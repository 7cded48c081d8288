/*
 * What was entered here and has still to reach the server.
 *
 * In:    new events; the server's answer about each.
 * Out:   every event kept, then delivered once, or on the refused list with the reason.
 * Never: an entry lost or held up by another one; an entry that counts twice: its key sees to that, not a lock.
 */

import { answer, inOneGo, readMeta, writeMeta } from "./db.js";
import { fetchFeed, stateOf } from "./feed.js";
import { SealError, redacted, seal, unseal } from "./seal.js";
import { askToPersist } from "./storage.js";
import { isBlind } from "./view.js";

const MOST = 50; // events a request
const PATIENCE = 20_000; // ms for one request
const TURN = 3_000; // ms to wait for another tab that is delivering; it may be asleep, so no longer
const ALONE = new Set([400, 409, 413, 414, 415, 422]); // a whole request refused: find out which event it is

const listeners = new Set();
const channel = globalThis.BroadcastChannel ? new BroadcastChannel("becket") : null;
channel?.addEventListener("message", () => tell());
let running = null;
let again = false;

/**
 * Keep an event on this phone, then start to deliver it. Comes back when the browser says that it is on the disk: only
 * then may a page go on. A blind entry is hidden before it is kept.
 * @param {object} event of `newEvent`
 * @param {{blind?: boolean}} [how] blind: hide it even where the script does not say so
 * @returns {Promise<void>}
 * @throws {KeepError|SealError} nothing was kept; `error.word` is the key of the words for it
 */
export async function put(event, { blind = false } = {}) {
    const hidden = blind || (await isBlind(event));
    const box = hidden ? await seal(event.entered) : null;
    const shown = hidden ? { ...event, entered: redacted(event.entered) } : event;
    const { key, crane, run, tick } = event;
    await inOneGo(["events", "outbox"], "readwrite", async ({ events, outbox }) => {
        if ((await answer(events.getKey(key))) === undefined) {
            events.put({ key, crane, run, tick, event: shown, number: null, received: null, hash: null, own: true, box });
            outbox.put({ key, tick });
        }
    });
    changed();
    void deliver();
    askToPersist().catch(() => undefined); // refused: the strap and the page Kept say so
}

/**
 * Deliver what is kept, then fetch what others sent. Never throws: how it went is told by `counts`.
 * @returns {Promise<void>}
 */
export function deliver() {
    again = true;
    running ??= inTurn(deliverAll).finally(() => {
        running = null;
    });
    return running;
}

/**
 * Call a function after each change of what is kept, refused or delivered, in this tab or another.
 * @param {() => void} listener
 * @returns {() => void} ends it
 */
export function onChange(listener) {
    listeners.add(listener);
    return () => listeners.delete(listener);
}

/**
 * Say in every tab that something changed of what is kept, refused or delivered.
 * @returns {void}
 */
export function tellChange() {
    changed();
}

/**
 * Return how much is kept and refused, photos among it, how the last try to reach the server went, and why another
 * account has to bring what is kept.
 * @returns {Promise<{kept: number, refused: number, state: "new"|"sent"|"no_signal"|"signed_out"|"trouble",
 *     sentAt: ?string, triedAt: ?string, others: ?string}>}
 */
export async function counts() {
    const [entries, faulty, photos, last] = await inOneGo(["outbox", "refused", "photos", "meta"], "readonly", (stores) =>
        Promise.all([
            answer(stores.outbox.count()),
            answer(stores.refused.count()),
            answer(stores.photos.getAll()),
            answer(stores.meta.get("delivery")),
        ]),
    );
    const refusedPhotos = photos.filter((one) => one.why !== null).length;
    const [kept, refused] = [entries + photos.length - refusedPhotos, faulty + refusedPhotos];
    return { kept, refused, state: "new", sentAt: null, triedAt: null, others: null, ...last };
}

/**
 * Return the events still kept, oldest first, blind ones hidden.
 * @returns {Promise<object[]>}
 */
export async function keptItems() {
    return (await inOrder()).map((record) => record.event);
}

/**
 * Return the refused events, oldest first, each with the reason, blind ones hidden.
 * @returns {Promise<{event: object, why: string, at: string}[]>}
 */
export async function refusedItems() {
    const found = await inOneGo(["refused"], "readonly", ({ refused }) => answer(refused.getAll()));
    return found.sort((one, other) => one.event.tick - other.event.tick);
}

/**
 * Put a refused event back among those to deliver.
 * @param {string} key
 * @returns {Promise<void>}
 */
export async function tryAgain(key) {
    await inOneGo(["events", "outbox", "refused"], "readwrite", async ({ events, outbox, refused }) => {
        const found = await answer(refused.get(key));
        if (found) {
            const { crane, run, tick } = found.event;
            const sent = { number: null, received: null, hash: null, own: true };
            events.put({ key, crane, run, tick, event: found.event, box: found.box, ...sent });
            outbox.put({ key, tick });
            refused.delete(key);
        }
    });
    changed();
    void deliver();
}

async function deliverAll() {
    try {
        let state = "sent";
        while (again && state === "sent") {
            again = false;
            state = await deliverKept();
            if (state === "sent") {
                const feed = await fetchFeed(PATIENCE);
                again ||= feed.again;
                state = feed.state;
            }
        }
        await note(state);
    } catch {
        await note("trouble").catch(() => undefined);
    }
    changed();
}

/** Deliver batch after batch until nothing is left or the server is out of reach. */
async function deliverKept() {
    await noteOthers(null);
    const passed = new Set(); // keys that the server said nothing about: not asked again in this round
    for (;;) {
        const waiting = (await inOrder()).filter((record) => !passed.has(record.key));
        const batch = waiting.slice(0, MOST);
        if (batch.length === 0) {
            return "sent";
        }
        const state = await deliverBatch(batch);
        if (state !== "sent") {
            return state;
        }
        batch.forEach((record) => passed.add(record.key));
        changed();
    }
}

async function deliverBatch(batch) {
    const events = await openedFor(batch);
    if (events.length === 0) {
        return "sent";
    }
    const { state, status, results } = await post(events);
    if (state === "sent") {
        await settle(results);
        const others = results.find((one) => one.later)?.refused;
        if (others) await noteOthers(others);
        return state;
    }
    if (!ALONE.has(status)) {
        return state;
    }
    if (events.length === 1) {
        await settle([{ key: events[0].key, number: null, refused: `The server answered ${status}.` }]);
        return "sent";
    }
    for (const record of batch) {
        const alone = await deliverBatch([record]);
        if (alone !== "sent") {
            return alone;
        }
    }
    return "sent";
}

/** The events of a batch as they are sent; one that this phone can no longer open goes to the refused list. */
async function openedFor(batch) {
    const events = [];
    for (const { key, event, box } of batch) {
        try {
            events.push(box ? { ...event, entered: await unseal(box) } : event);
        } catch (error) {
            if (!(error instanceof SealError)) {
                throw error;
            }
            await settle([{ key, number: null, refused: "This phone can no longer open it. Count again." }]);
        }
    }
    return events;
}

/** Send events; what is not a proper answer of our server is taken as no signal (a hotel's log-in page, a proxy). */
async function post(events) {
    try {
        const reply = await fetch("/api/events", {
            method: "POST",
            headers: { "content-type": "application/json" },
            body: JSON.stringify({ events }),
            cache: "no-store",
            redirect: "error",
            signal: AbortSignal.timeout(PATIENCE),
        });
        if (!reply.ok) {
            return { state: stateOf(reply.status), status: reply.status };
        }
        const { results } = await reply.json();
        return Array.isArray(results) ? { state: "sent", results } : { state: "no_signal" };
    } catch {
        return { state: "no_signal" };
    }
}

/** Take the server's word on each event. */
async function settle(results) {
    const at = new Date().toISOString();
    await inOneGo(["events", "outbox", "refused"], "readwrite", async ({ events, outbox, refused }) => {
        for (const { key, number, refused: why, later } of results) {
            const record = await answer(events.get(key));
            if (record === undefined || (await answer(outbox.getKey(key))) === undefined) {
                continue;
            }
            if (Number.isInteger(number)) {
                events.put({ ...record, number });
                outbox.delete(key);
            } else if (typeof why === "string" && !later) {
                refused.put({ key, event: record.event, box: record.box, why, at });
                events.delete(key);
                outbox.delete(key);
            }
        }
    });
}

function inOrder() {
    return inOneGo(["events", "outbox"], "readonly", async ({ events, outbox }) => {
        const keys = await answer(outbox.index("order").getAllKeys());
        const found = await Promise.all(keys.map((key) => answer(events.get(key))));
        return found.filter((record) => record !== undefined);
    });
}

/** Another account than the one that is signed in may bring what is kept: say why, until a round is without it. */
async function noteOthers(others) {
    await writeMeta("delivery", { ...((await readMeta("delivery")) ?? {}), others });
}

async function note(state) {
    const old = (await readMeta("delivery")) ?? {};
    const now = new Date().toISOString();
    await writeMeta("delivery", { ...old, state, triedAt: now, ...(state === "sent" ? { sentAt: now } : {}) });
}

/** Take turns with other tabs where the browser has locks: it saves traffic, nothing else. */
async function inTurn(work) {
    if (!globalThis.navigator?.locks) {
        return work();
    }
    try {
        return await navigator.locks.request("becket-deliver", { signal: AbortSignal.timeout(TURN) }, work);
    } catch (error) {
        return error?.name === "TimeoutError" || error?.name === "AbortError" ? work() : undefined;
    }
}

function changed() {
    channel?.postMessage("changed");
    tell();
}

function tell() {
    listeners.forEach((listener) => listener());
}
