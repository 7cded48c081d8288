/*
 * What this phone knows: the events that were sent or fetched, and those still kept.
 *
 * In:    the stores of this phone.
 * Out:   events in their one order, scripts, new events.
 * Never: a blind entry in the clear before its group is complete.
 */

import { answer, inOneGo, randomName, readMeta, writeMeta } from "./db.js";
import { unseal } from "./seal.js";
import { sealedKeys } from "./fold.js";

const FIRM = "";
let lastTick = 0;

/**
 * Return every event of a crane that this phone knows, in order, blind entries opened once their group is complete.
 * Each has also `number`, `received`, `hash` (null: not sent yet) and `own` (written on this phone).
 * @param {string} craneId "" gives the events of the firm alone
 * @returns {Promise<object[]>}
 */
export async function eventsOf(craneId) {
    const records = await recordsOf(craneId);
    await openComplete(records);
    return records.map(asShown);
}

/**
 * Return the events of one run, in order, blind entries opened once their group is complete.
 * @param {string} runId
 * @returns {Promise<object[]>}
 */
export async function eventsOfRun(runId) {
    const records = await inOneGo(["events"], "readonly", ({ events }) => answer(events.index("run").getAll(runId)));
    records.sort(byOrder);
    await openComplete(records);
    return records.map(asShown);
}

/**
 * Return a new event of this device, made by whoever holds the phone. It is kept by `put` of outbox.js.
 * @param {string} kind
 * @param {{crane: string, run?: ?string, role: string, person?: ?string, shown?: object, entered?: object}} parts
 * @returns {Promise<object>}
 */
export async function newEvent(kind, { crane, run = null, role, person, shown = {}, entered = {} }) {
    return {
        key: randomName(),
        crane,
        run,
        kind,
        person: person === undefined ? ((await readMeta("holder")) ?? null) : person,
        role,
        device: await deviceName(),
        at: momentNow(),
        tick: await nextTick(),
        shown,
        entered,
    };
}

/**
 * Return a script: kept on this phone, else from the server or the service worker, and then kept; null when not to
 * be had.
 * @param {string} id
 * @returns {Promise<?object>}
 */
export async function scriptOf(id) {
    const kept = await inOneGo(["scripts"], "readonly", ({ scripts }) => answer(scripts.get(id)));
    if (kept) {
        return kept.script;
    }
    const reply = await fetch(`/script/${encodeURIComponent(id)}.json`).catch(() => null);
    if (!reply?.ok) {
        return null;
    }
    const script = await reply.json();
    await inOneGo(["scripts"], "readwrite", ({ scripts }) => {
        scripts.put({ id, crane: script.crane, script });
    });
    return script;
}

/**
 * Return the scripts that the runs among some events name, by id; one that is not to be had is left out.
 * @param {object[]} events
 * @returns {Promise<Object<string, object>>}
 */
export async function scriptsOf(events) {
    const ids = new Set(events.filter((one) => one.kind === "run_started").map((one) => one.entered.script));
    const found = await Promise.all([...ids].map(async (id) => [id, await scriptOf(id)]));
    return Object.fromEntries(found.filter(([, script]) => script !== null));
}

/**
 * Return whether an event is an entry that the other person must not see yet, as the script of its run says.
 * @param {object} event
 * @returns {Promise<boolean>}
 */
export async function isBlind(event) {
    if (event.kind !== "entered" || event.run === null) {
        return false;
    }
    const records = await inOneGo(["events"], "readonly", ({ events }) => answer(events.index("run").getAll(event.run)));
    const start = records.find((one) => one.event.kind === "run_started");
    const script = start ? await scriptOf(start.event.entered.script) : null;
    return script?.items.find((item) => item.id === event.entered.item)?.blind ?? false;
}

/**
 * Return the name of this browser: random, made once.
 * @returns {Promise<string>}
 */
export async function deviceName() {
    const found = await readMeta("device");
    if (found) {
        return found;
    }
    return inOneGo(["meta"], "readwrite", async ({ meta }) => {
        const other = await answer(meta.get("device"));
        const name = other ?? `phone-${randomName(8)}`;
        meta.put(name, "device");
        return name;
    });
}

/**
 * Return the moment by this phone's clock, right or wrong, with its offset.
 * @param {Date} [now]
 * @returns {string} as 2026-11-30T15:31:00.000+01:00
 */
export function momentNow(now = new Date()) {
    const minutes = -now.getTimezoneOffset();
    const local = new Date(now.getTime() + minutes * 60_000).toISOString().slice(0, -1);
    const part = (value) => String(value).padStart(2, "0");
    const size = Math.abs(minutes);
    return `${local}${minutes < 0 ? "-" : "+"}${part(Math.floor(size / 60))}:${part(size % 60)}`;
}

/**
 * Remember the crane whose pages were opened last: its feed is fetched from every page.
 * @param {string} craneId
 * @returns {Promise<void>}
 */
export function rememberCrane(craneId) {
    return writeMeta("crane", craneId);
}

async function recordsOf(craneId) {
    const records = await inOneGo(["events"], "readonly", async ({ events }) => {
        const index = events.index("crane");
        const firm = await answer(index.getAll(FIRM));
        return craneId === FIRM ? firm : [...firm, ...(await answer(index.getAll(craneId)))];
    });
    return records.sort(byOrder);
}

function byOrder(one, other) {
    return one.tick - other.tick || (one.key < other.key ? -1 : Number(one.key > other.key));
}

function asShown({ event, number, received, hash, own }) {
    return { ...event, number, received, hash, own };
}

/** Open the own sealed entries whose group is complete, and keep them open. */
async function openComplete(records) {
    const runs = new Set(records.filter((one) => one.box).map((one) => one.run));
    for (const run of runs) {
        const ofRun = records.filter((one) => one.run === run);
        const start = ofRun.find((one) => one.event.kind === "run_started");
        const script = start ? await scriptOf(start.event.entered.script) : null;
        if (script === null) {
            continue;
        }
        const hidden = new Set(sealedKeys(script, ofRun.map((one) => one.event)));
        for (const record of ofRun.filter((one) => one.box && !hidden.has(one.key))) {
            await openOne(record);
        }
    }
}

async function openOne(record) {
    let entered;
    try {
        entered = await unseal(record.box);
    } catch {
        return; // stays hidden; delivery puts it on the refused list with words
    }
    record.event = { ...record.event, entered };
    record.box = null;
    await inOneGo(["events"], "readwrite", async ({ events }) => {
        const kept = await answer(events.get(record.key));
        if (kept?.box) {
            events.put({ ...kept, event: record.event, box: null });
        }
    });
}

async function nextTick() {
    const known = await inOneGo(["events"], "readonly", ({ events }) =>
        answer(events.index("tick").openKeyCursor(null, "prev")),
    );
    lastTick = Math.min(Math.max(lastTick, known?.key ?? 0) + 1, Number.MAX_SAFE_INTEGER);
    return lastTick;
}
