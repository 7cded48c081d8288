/*
 * The state of a run and of a crane, made of events: what the server makes of the same events, with no server.
 *
 * In:    scripts; events in any order, some of them more than once.
 * Out:   plain objects.
 * Never: the page, the store, the net, the time now; a value of a blind count that is not complete.
 *
 * The truth is guide/run.py, guide/sealed.py and guide/crane_now.py; tests/phone/test_fold_js.py holds both together.
 * The rules: docs/theory/run.md.
 */

import { Course } from "./fold-course.js";
import { COUNTERS } from "./fold-compare.js";
import { limitTried } from "./fold-closing.js";
import { isWhole } from "./fold-reading.js";
import { take } from "./fold-rules.js";

/**
 * Return the state of a run.
 * @param {object} script
 * @param {object[]} events of this run alone, in any order
 * @returns {object} RunState, its keys as in guide/run_state.py
 */
export function foldRun(script, events) {
    return courseOf(script, events).state();
}

/**
 * Return the keys of the blind entries whose group is not complete in that round or a later one.
 * @param {object} script
 * @param {object[]} events of this run alone
 * @returns {string[]} sorted
 */
export function sealedKeys(script, events) {
    const course = courseOf(script, events);
    if (course.closedBy !== null) {
        return [];
    }
    const blind = new Map(script.items.filter((item) => course.isBlind(item)).map((item) => [item.id, item.group]));
    const hidden = inOrder(events).filter(({ kind, entered }) => {
        if (kind !== "entered" || !blind.has(entered.item)) {
            return false;
        }
        const complete = course.complete.get(blind.get(entered.item)) ?? 0;
        return !(isWhole(entered.round) && entered.round <= complete);
    });
    return hidden.map((event) => event.key).sort();
}

/**
 * Return what is known of a crane now.
 * @param {object[]} events of this crane, and of the firm
 * @param {Object<string, object>} scripts by id; a run without its script counts as open
 * @returns {object} CraneNow, its keys as in guide/crane_now.py
 */
export function craneNow(events, scripts) {
    const ordered = inOrder(events);
    const runs = runsOf(ordered, scripts);
    const since = lastLockOutEnded(ordered);
    const counted = runs.filter((run) => since === null || byOrder(run.start, since) > 0);
    const closed = counted.filter(isClosed).map((run) => run.course);
    const last = closed.sort((one, other) => byOrder(one.closedBy, other.closedBy)).at(-1) ?? null;
    const now = openRun(ordered, runs);
    return {
        state: last?.result() ?? null,
        since: last?.closedBy.at ?? null,
        by: last ? COUNTERS.map((role) => last.people[role]) : [],
        indicator: last ? indicatorOf(last) : null,
        limit_tried: last ? limitOf(last) : null,
        open_run: now?.name ?? null,
        locked: lockOut(ordered),
        differs: Boolean(now?.course?.differ),
    };
}

function courseOf(script, events) {
    const ordered = inOrder(events);
    const runs = new Set(ordered.map((event) => event.run));
    if (runs.size > 1) {
        throw new Error(`events of one run are wanted, these are of ${[...runs].sort().join(", ")}`);
    }
    const course = new Course(script);
    ordered.forEach((event) => take(course, event));
    return course;
}

function inOrder(events) {
    const once = new Map();
    for (const event of events) {
        if (!once.has(event.key) || once.get(event.key).entered.sealed === true) {
            once.set(event.key, event);
        }
    }
    return [...once.values()].sort(byOrder);
}

function byOrder(one, other) {
    return one.tick - other.tick || (one.key < other.key ? -1 : Number(one.key > other.key));
}

function runsOf(ordered, scripts) {
    const byRun = new Map();
    for (const event of ordered.filter((one) => one.run !== null)) {
        byRun.set(event.run, [...(byRun.get(event.run) ?? []), event]);
    }
    const starts = new Map();
    for (const event of ordered.filter((one) => one.kind === "run_started" && one.run !== null)) {
        starts.set(event.run, starts.get(event.run) ?? event);
    }
    return [...starts].map(([name, start]) => {
        const id = start.entered.script;
        const script = typeof id === "string" && Object.hasOwn(scripts, id) ? scripts[id] : null;
        return { name, start, course: script ? courseOf(script, byRun.get(name)) : null };
    });
}

function openRun(ordered, runs) {
    const inspected = ordered.filter(endsLockOut).at(-1);
    const alive = runs.filter((run) => inspected === undefined || byOrder(run.start, inspected) > 0);
    const changes = alive.filter((run) => !isClosed(run) && run.start.entered.kind !== "count");
    if (changes.length) {
        return changes.at(-1);
    }
    const last = alive.at(-1);
    return last && !isClosed(last) ? last : null;
}

/**
 * Return what locks a crane out, and the inspection that ended the last lock-out.
 * @param {object[]} events of this crane
 * @returns {{locked: ?object, ended: ?object}}
 */
export function lockOutOf(events) {
    const ordered = inOrder(events);
    return { locked: lockOut(ordered), ended: lastLockOutEnded(ordered) };
}

/** The inspection that ended the last lock-out: what hung before it is counted anew. */
function lastLockOutEnded(ordered) {
    let ended = null;
    let isLocked = false;
    for (const event of ordered) {
        if (event.kind === "trouble_entered") {
            isLocked = true;
        } else if (isLocked && endsLockOut(event)) {
            ended = event;
            isLocked = false;
        }
    }
    return ended;
}

function lockOut(ordered) {
    let locked = null;
    for (const event of ordered) {
        if (event.kind === "trouble_entered") {
            locked = { what: event.entered.what ?? null, at: event.at, by: event.person };
        } else if (endsLockOut(event)) {
            locked = null;
        }
    }
    return locked;
}

function endsLockOut({ kind, entered }) {
    const told = [entered.by_whom, entered.found];
    const isTold = told.every((text) => typeof text === "string" && /[^ \t\r\n]/.test(text));
    return kind === "inspection_entered" && isTold && entered.fit === true;
}

function isClosed(run) {
    return run.course !== null && run.course.closedBy !== null;
}

function indicatorOf(course) {
    const found = course.found();
    const hasRead = course.script.groups.some((group) => group.compare === "indicator");
    return found !== null && hasRead ? { falls: found.falls, block: found.block } : null;
}

function limitOf(course) {
    const [state, found] = [course.state(), course.found()];
    const item = limitTried(course.script, state);
    return item === null || found === null ? null : { at: state.items[item.id].at, falls: found.falls };
}
