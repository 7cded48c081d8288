/*
 * What others entered, fetched from the server.
 *
 * In:    the feed of a crane: its events and those of the firm.
 * Out:   events in the store of this phone.
 * Never: an own entry replaced by a hidden copy of it; an own entry lost because the server lost it.
 */

import { answer, inOneGo, readMeta } from "./db.js";

/**
 * Fetch the feed of the crane whose pages were opened last, and keep it.
 * @param {number} patience [ms]
 * @returns {Promise<{state: "sent"|"no_signal"|"signed_out"|"trouble", again: boolean}>} how it went; again: there is
 *     something to deliver again
 */
export async function fetchFeed(patience) {
    const crane = (await readMeta("crane")) ?? globalThis.document?.body.dataset.listOf; // the crew list comes with any
    if (!crane) {
        return { state: "sent", again: false };
    }
    const mark = (await readMeta(`feed:${crane}`)) ?? { head: 0 };
    const { state, feed } = await get(crane, mark, patience);
    if (state !== "sent" || feed === null) {
        return { state, again: false };
    }
    if (feed.head < mark.head) {
        return startOver(crane, patience);
    }
    await keep(crane, feed);
    return { state, again: false };
}

/**
 * Return what an answer that is not good means: signed out, nothing there behind a proxy, or a server in trouble.
 * @param {number} status of HTTP
 * @returns {"no_signal"|"signed_out"|"trouble"}
 */
export function stateOf(status) {
    if (status === 401) {
        return "signed_out";
    }
    return [502, 503, 504].includes(status) ? "no_signal" : "trouble";
}

/**
 * The server has not what it had (an older copy was put back): take all, and send it what it lost. What is to be sent
 * is put down first: a phone that dies between the two begins again here.
 */
async function startOver(crane, patience) {
    const { state, feed } = await get(crane, { head: 0 }, patience);
    if (state !== "sent" || feed === null) {
        return { state, again: false };
    }
    const there = new Set(feed.events.map((event) => event.key));
    await inOneGo(["events", "outbox"], "readwrite", async ({ events, outbox }) => {
        for (const name of [crane, ""]) {
            for (const record of await answer(events.index("crane").getAll(name))) {
                if (record.own && !there.has(record.key)) {
                    events.put({ ...record, number: null, received: null, hash: null });
                    outbox.put({ key: record.key, tick: record.tick });
                }
            }
        }
    });
    await keep(crane, feed);
    return { state, again: true };
}

/** Ask until the server has no more: a record that is half here would show a state that is past. */
async function get(crane, mark, patience) {
    const events = [];
    for (let { head: from, stamp } = mark; ; ) {
        const { more, ...part } = await getPart(crane, from, stamp, patience);
        if (part.state !== "sent" || part.feed === null) {
            return part;
        }
        events.push(...part.feed.events);
        if (!more || part.feed.head <= from) {
            return { state: "sent", feed: { ...part.feed, events } };
        }
        ({ head: from, stamp } = part.feed);
    }
}

async function getPart(crane, after, stamp, patience) {
    const asked = new URLSearchParams(after > 0 && stamp ? { after, stamp } : { after });
    try {
        const reply = await fetch(`/api/feed/${encodeURIComponent(crane)}?${asked}`, {
            cache: "no-store",
            redirect: "error",
            signal: AbortSignal.timeout(patience),
        });
        if (reply.status === 404) {
            return { state: "sent", feed: null }; // the server knows the crane no more; the rest goes on
        }
        if (!reply.ok) {
            return { state: stateOf(reply.status) };
        }
        const feed = await reply.json();
        const more = reply.headers.get("x-becket-more") === "yes";
        return Array.isArray(feed?.events) ? { state: "sent", feed, more } : { state: "no_signal" };
    } catch {
        return { state: "no_signal" };
    }
}

/** Keep a feed and its head in one go. */
async function keep(crane, feed) {
    await inOneGo(["events", "meta"], "readwrite", async ({ events, meta }) => {
        for (const found of feed.events) {
            events.put(merged(await answer(events.get(found.key)), found));
        }
        meta.put({ head: feed.head, stamp: feed.stamp, time: feed.time, book: feed.book }, `feed:${crane}`);
    });
}

/** An own entry keeps what was entered here; another's is taken as the server shows it now. */
function merged(kept, { number, received, hash, ...event }) {
    const { key, crane, run, tick } = event;
    const isOwn = kept?.own ?? false;
    const isHidden = event.entered?.sealed === true;
    const stays = kept !== undefined && (isOwn || (isHidden && kept.event.entered?.sealed !== true));
    const box = stays && isHidden ? kept.box : null;
    const shown = stays && isHidden ? kept.event : event;
    return { key, crane, run, tick, event: shown, number, received, hash, own: isOwn, box };
}
