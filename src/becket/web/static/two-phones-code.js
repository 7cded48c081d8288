/*
 * What two phones tell each other by code where neither has a signal.
 *
 * In:    events of this phone; the text of a code that the other one shows.
 * Out:   the text of a code; events of the other phone, kept here under the same keys.
 * Never: a count in a code before both are hidden; a count taken that is not the one whose hash came first.
 *
 * i: an invitation: the start of the run, the item, its round, the tick. h: an entry without what was entered, and the
 * SHA-256 of the whole of it. e: the whole entry. `nonce` in a blind entry is 16 random bytes: nobody finds the count by
 * trying hashes.
 */

import { answer, inOneGo, readMeta, writeMeta } from "./db.js";
import { deliver, tellChange } from "./outbox.js";
import { redacted, seal, unseal } from "./seal.js";

const PARTS = ["key", "crane", "run", "kind", "person", "role", "device", "at", "tick", "shown", "entered"];
const BEGAN = ["kind", "script", "book", "before", "after", "operator", "rigger", "lot", "why"];
const MOST = 660; // bytes of a code that qr.js makes

/** A code that is not taken. `word` is the key of the words for it. */
export class CodeError extends Error {
    /** @param {string} name of the fault, after two.fault. */
    constructor(name) {
        super(name);
        this.name = "CodeError";
        this.word = `two.fault.${name}`;
    }
}

/**
 * Return an invitation to count an item on another phone; null: it does not fit in a code.
 * @param {object} start the event run_started
 * @param {{item: string, round: number, tick: number}} asked
 * @returns {?string}
 */
export function invitation(start, { item, round, tick }) {
    const { shown, entered } = start;
    const plain = [...PARTS.slice(0, 9).map((name) => start[name]), [shown.screen, shown.names, shown.licences],
        BEGAN.map((name) => entered[name])];
    if (!isSame(asStart(plain), start)) return null;
    const text = link("i", [plain, item, round, tick]);
    return new TextEncoder().encode(text).length <= MOST ? text : null;
}

/**
 * Return the proof that an entry was hidden: all of it but what was entered, and the hash of the whole.
 * @param {object} event whole
 * @returns {Promise<string>}
 */
export async function proof(event) {
    const { shown, entered, ...rest } = event;
    return link("h", [PARTS.slice(0, 9).map((name) => rest[name]), entered.item, entered.round, await hashOf(event)]);
}

/**
 * Return the entry itself.
 * @param {object} event whole
 * @returns {string}
 */
export function whole(event) {
    return link("e", PARTS.map((name) => event[name]));
}

/**
 * Return what a code says.
 * @param {string} text as it was read or pasted
 * @returns {{kind: "i", start: object, item: string, round: number, tick: number}
 *     |{kind: "h", event: object, hash: string}|{kind: "e", event: object}}
 */
export function readCode(text) {
    const [, kind, packed] = /(?:#|^)([ihe])\.([A-Za-z0-9_-]+)$/.exec(text.trim()) ?? [];
    let found;
    try {
        const bytes = Uint8Array.from(atob(packed.replaceAll("-", "+").replaceAll("_", "/")), (one) => one.charCodeAt(0));
        found = JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(bytes));
        if (kind === "i") return { kind, start: asStart(found[0]), item: found[1], round: found[2], tick: found[3] };
        const event = asEvent(kind === "h" ? [...found[0], {}, { item: found[1], round: found[2], sealed: true }] : found);
        if (event.kind !== "entered" || typeof event.entered.item !== "string") throw new CodeError("no_code");
        return kind === "h" ? { kind, event, hash: found[3] } : { kind, event };
    } catch {
        throw new CodeError("no_code");
    }
}

/**
 * Return an own entry as it was entered, opened for a moment; null: there is none on this phone.
 * @param {string} key
 * @returns {Promise<?object>}
 */
export async function openedEntry(key) {
    const record = await inOneGo(["events"], "readonly", ({ events }) => answer(events.get(key)));
    if (!record) return null;
    return record.box ? { ...record.event, entered: await unseal(record.box) } : record.event;
}

/**
 * Return whether the proof of an entry has been read on this phone.
 * @param {string} key
 * @returns {Promise<boolean>}
 */
export async function hasProof(key) {
    return (await readMeta(`proof:${key}`)) !== undefined;
}

/**
 * Keep the start of a run that another phone has begun; it is delivered from here too, under the same key.
 * @param {object} start
 * @returns {Promise<void>}
 */
export async function keepStart(start) {
    await keepOnce(start, true, null);
}

/**
 * Keep the proof of the other phone's entry: from now on it stands here as an entry that is hidden. The first proof of
 * a key stays.
 * @param {{event: object, hash: string}} code
 * @returns {Promise<void>}
 */
export async function keepProof({ event, hash }) {
    if (await hasProof(event.key)) return;
    await writeMeta(`proof:${event.key}`, hash);
    await keepOnce(event, false, null);
}

/**
 * Take the other phone's entry, hidden on this phone until its group is complete here; delivered under the same key by
 * whichever phone has a signal first.
 * @param {object} event whole
 * @returns {Promise<void>}
 * @throws {CodeError} its proof was not read before, or it is another one
 */
export async function keepWhole(event) {
    const promised = await readMeta(`proof:${event.key}`);
    if (promised === undefined) throw new CodeError("no_hash");
    if (promised !== (await hashOf(event))) throw new CodeError("not_the_same");
    await keepOnce({ ...event, entered: redacted(event.entered) }, true, await seal(event.entered));
}

async function keepOnce(event, isDelivered, box) {
    const { key, crane, run, tick } = event;
    await inOneGo(["events", "outbox"], "readwrite", async ({ events, outbox }) => {
        const kept = await answer(events.get(key));
        const isHere = kept !== undefined && (box === null || kept.box !== null || kept.event.entered.sealed !== true);
        if (isHere) return;
        const sent = { number: kept?.number ?? null, received: kept?.received ?? null, hash: kept?.hash ?? null };
        events.put({ key, crane, run, tick, event, ...sent, own: isDelivered, box });
        if (isDelivered && sent.number === null) outbox.put({ key, tick });
    });
    tellChange();
    void deliver();
}

/** Return the SHA-256 of an entry as it stands in its code. */
async function hashOf(event) {
    const text = canonical(PARTS.map((name) => event[name]));
    return packed(new Uint8Array(await crypto.subtle.digest("SHA-256", new TextEncoder().encode(text))));
}

function link(kind, plain) {
    return `${location.origin}/run/join#${kind}.${packed(new TextEncoder().encode(JSON.stringify(plain)))}`;
}

function packed(bytes) {
    return btoa(String.fromCharCode(...bytes)).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
}

function asEvent(plain) {
    if (plain.length !== PARTS.length) throw new CodeError("no_code");
    return Object.fromEntries(PARTS.map((name, place) => [name, plain[place]]));
}

function asStart(plain) {
    const event = asEvent(plain);
    const [screen, names, licences] = event.shown;
    const entered = Object.fromEntries(BEGAN.map((name, place) => [name, event.entered[place]]));
    return { ...event, shown: { screen, names, licences }, entered };
}

/** Return whether an event comes out of its code as it went in, whatever else the phone keeps beside it. */
function isSame(one, other) {
    return canonical(one) === canonical(Object.fromEntries(PARTS.map((name) => [name, other[name]])));
}

/** Return plain data as its one text: keys sorted, as the server sorts them. */
function canonical(value) {
    if (Array.isArray(value)) return `[${value.map(canonical).join()}]`;
    if (value === null || typeof value !== "object") return JSON.stringify(value) ?? "null";
    return `{${Object.keys(value).sort().map((name) => `${JSON.stringify(name)}:${canonical(value[name])}`).join()}}`;
}
