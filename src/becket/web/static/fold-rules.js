/*
 * What each kind of event does to a run: one function a kind.
 *
 * In:    a run as far as it has come, its next event.
 * Out:   the run after it; an event that counts for nothing is kept as out of turn, or as late.
 * Never: a way past a difference; an item skipped; a value put right.
 *
 * The truth is guide/run_rules.py.
 */

import { whatIsMissing } from "./fold-closing.js";
import { compared, COUNTERS, merged } from "./fold-compare.js";
import { secondsBetween } from "./fold-moment.js";
import { isObject, isSame, runWord, whatIsWrong } from "./fold-reading.js";
import { blockNamed, itemsInTurn, partnersOf, pausesOf, SIGN } from "./fold-turn.js";

export const LONGEST_STOP = 8;
const AS_KEPT = ["keepers_out", "last_sheave", "block"];
const NO_EFFECT = ["noted", "went_on_from_paper", "photo_taken", "photo_kept", "phone_joined"];
const SEALED = { sealed: true };

const RULES = new Map([
    ["run_started", runStarted],
    ["entered", entered],
    ["interrupted", interrupted],
    ["followed_by_hand", followedByHand],
    ["count_again", countAgain],
    ["stopped", stopped],
    ["resumed", resumed],
    ["signed", signed],
]);

/**
 * Take the next event of a run: it counts, or it is kept as out of turn, or as late.
 * @param {Course} course
 * @param {object} event
 */
export function take(course, event) {
    if (NO_EFFECT.includes(event.kind)) {
        return;
    }
    if (course.closedBy !== null) {
        course.late.push(event.key);
    } else if (RULES.get(event.kind)?.(course, event) ?? false) {
        course.devices.add(event.device);
    } else {
        course.outOfTurn.push(event.key);
    }
}

function runStarted(course, event) {
    if (course.started !== null) {
        return false;
    }
    course.started = event.at;
    course.turn = itemsInTurn(course.script, event.entered.lot);
    course.people = crewOf(event);
    return true;
}

function entered(course, event) {
    const item = openItem(course, event);
    if (item === null || !isSame(event.entered.round, course.roundOf(item))) {
        return false;
    }
    if (course.isBlind(item)) {
        return counted(course, event, item);
    }
    const { values } = event.entered;
    if (!isObject(values)) {
        return false;
    }
    const why = item.fields.map((field) => whatIsWrong(field, valueOf(values, field.name))).filter(Boolean).join(" ");
    if (why === "") {
        course.done.set(item.id, asDone(course, event, item, values));
    } else {
        const attempt = { by: event.person, at: event.at, round: course.roundOf(item), values, why };
        course.attempts.set(item.id, [...(course.attempts.get(item.id) ?? []), attempt]);
    }
    course.resume = null;
    return true;
}

function openItem(course, event) {
    const current = course.current();
    if (current === null || course.stop || course.differ || course.waiting || current.part === SIGN) {
        return null;
    }
    const named = event.entered.item;
    if (named !== current.id && named !== partnersOf(course.script).get(current.id)) {
        return null;
    }
    const item = course.item(named);
    return item === undefined || course.isDone(item) ? null : item;
}

function counted(course, event, item) {
    const [one, other] = COUNTERS.map((role) => course.people[role]);
    const group = course.group(item.group);
    const named = COUNTERS.includes(item.who) ? course.people[item.who] : null;
    if (event.person === null || event.person !== named || one === other) {
        return false;
    }
    const values = event.entered.sealed === true ? SEALED : event.entered.values;
    if (!isObject(values)) {
        return false;
    }
    course.done.set(item.id, asDone(course, event, item, values));
    course.counters.add(event.device);
    course.resume = null;
    if (group.items.every((name) => course.done.has(name))) {
        course.complete.set(group.name, course.rounds.get(group.name));
        compare(course, group);
    }
    return true;
}

function asDone(course, event, item, values) {
    return {
        done: true,
        by: event.person,
        role: event.role,
        device: event.device,
        at: event.at,
        values,
        round: course.roundOf(item),
    };
}

function compare(course, group) {
    const entries = group.items.map((name) => entryOf(course, name));
    if (entries.some((entry) => entry.values.sealed === true)) {
        course.waiting = group.name;
        return;
    }
    const block = blockNamed(course.script, course.rounds, course.kept);
    const counts = { script: course.script, group, sides: merged(entries), found: course.found(), block };
    const { why, finds } = compared(counts);
    const round = course.rounds.get(group.name);
    const found = { group: group.name, round, agreed: why === null, entries, why, finds: finds?.state ?? null };
    course.kept.push(found);
    course.differ = found.agreed ? null : found;
    course.followed = false;
}

function entryOf(course, name) {
    const { by, device, at, values } = course.done.get(name);
    return { item: name, role: course.item(name).who, by, device, at, values };
}

function followedByHand(course, event) {
    if (!isAboutDifference(course, event) || course.followed) {
        return false;
    }
    course.followed = true;
    return true;
}

function countAgain(course, event) {
    if (!isAboutDifference(course, event) || course.hasToFollow()) {
        return false;
    }
    const group = course.group(course.differ.group);
    course.differ = null;
    nextRound(course, group);
    return true;
}

function isAboutDifference(course, event) {
    const { differ } = course;
    if (differ === null || course.stop !== null) {
        return false;
    }
    return event.entered.group === differ.group && isSame(event.entered.round, differ.round);
}

function nextRound(course, group) {
    if (course.differ?.group === group.name) {
        return;
    }
    course.rounds.set(group.name, course.rounds.get(group.name) + 1);
    course.waiting = course.waiting === group.name ? null : course.waiting;
    course.signed.clear();
    group.items.forEach((name) => course.done.delete(name));
    if (group.compare === "falls") {
        for (const other of course.script.groups) {
            if (other.compare === "indicator" && other.items.some((name) => course.done.has(name))) {
                nextRound(course, other);
            }
        }
    }
}

function interrupted(course, event) {
    const { part } = event.entered;
    if (course.started === null || course.stop || course.differ || !pausesOf(course.script).includes(part)) {
        return false;
    }
    if (!isBegun(course, part) || isComplete(course, part)) {
        return false;
    }
    startAgain(course, part);
    return true;
}

function itemsOfPart(course, part) {
    return course.script.items.filter((item) => item.part === part);
}

function isBegun(course, part) {
    return itemsOfPart(course, part).some((item) => course.done.has(item.id));
}

function isComplete(course, part) {
    return itemsOfPart(course, part).every((item) => course.done.has(item.id));
}

function startAgain(course, part) {
    course.rounds.set(part, course.rounds.get(part) + 1);
    course.signed.clear();
    const inside = itemsOfPart(course, part);
    for (const group of course.script.groups) {
        if (inside.some((item) => item.group === group.name && course.done.has(item.id))) {
            nextRound(course, group);
        }
    }
    inside.filter((item) => course.group(item.group) === null).forEach((item) => course.done.delete(item.id));
}

function stopped(course, event) {
    if (course.started === null || course.stop !== null) {
        return false;
    }
    const { left, told } = event.entered;
    course.stop = {
        item: course.current()?.id ?? null,
        left: Array.isArray(left) ? left : [],
        told: told ?? null,
        by: event.person,
        at: event.at,
    };
    course.resume = null;
    return true;
}

function resumed(course, event) {
    const { stop } = course;
    if (stop === null || AS_KEPT.some((name) => valueOf(event.entered, name) === null)) {
        return false;
    }
    const item = course.current() ?? course.script.items.at(-1); // stopped at the signatures: as the last step left it
    const kept = item.resume ?? null;
    const seen = Object.fromEntries(AS_KEPT.map((name) => [name, event.entered[name]]));
    const differs = AS_KEPT.filter((name) => kept !== null && !isSame(kept[name], seen[name]));
    const why = differs.map((name) => runWord(`kept_${name}`, { kept: kept[name], seen: seen[name] }));
    why.push(...reasonsOf(course, stop, event));
    course.stop = null;
    takeOver(course, event);
    const part = why.length ? lastPauseBegun(course) : pauseInHand(course);
    if (part !== null) {
        if (why.length === 0) {
            why.push(runWord("pause_again"));
        }
        startAgain(course, part);
    }
    course.resume = { by: event.person, at: event.at, kept, seen, differs, restarted: part, why };
    return true;
}

function reasonsOf(course, stop, event) {
    const reasons = [];
    if (!Object.values(course.people).includes(event.person) || isOtherCrew(course, event)) {
        reasons.push(runWord("other_person"));
    }
    const gone = secondsBetween(stop.at, event.at);
    if (gone === null || gone < 0 || gone > LONGEST_STOP * 3600) {
        reasons.push(runWord("long_stop", { hours: LONGEST_STOP }));
    }
    return reasons;
}

function crewOf(event) {
    return Object.fromEntries(
        COUNTERS.map((role) => [role, typeof event.entered[role] === "string" ? event.entered[role] : null]),
    );
}

function isOtherCrew(course, event) {
    const named = crewOf(event);
    const [one, other] = COUNTERS.map((role) => named[role]);
    return one !== null && other !== null && one !== other && COUNTERS.some((role) => named[role] !== course.people[role]);
}

function takeOver(course, event) {
    if (!isOtherCrew(course, event)) {
        return;
    }
    course.people = crewOf(event);
    course.signed.clear();
    for (const group of course.script.groups) {
        const has = group.items.map((name) => course.done.has(name));
        if (has.includes(true) && has.includes(false)) {
            nextRound(course, group);
        }
    }
}

function lastPauseBegun(course) {
    return pausesOf(course.script).findLast((part) => isBegun(course, part)) ?? null;
}

function pauseInHand(course) {
    const part = lastPauseBegun(course);
    return part !== null && !isComplete(course, part) ? part : null;
}

function signed(course, event) {
    const { role } = event.entered;
    const [one, other] = COUNTERS.map((name) => course.people[name]);
    if (!course.isReadyToSign() || !COUNTERS.includes(role) || course.signed.has(role)) {
        return false;
    }
    if (event.person === null || event.person !== course.people[role] || one === other) {
        return false;
    }
    course.signed.set(role, { by: event.person, at: event.at, device: event.device });
    if (course.signed.size === COUNTERS.length && whatIsMissing(course.script, course.state()).length === 0) {
        course.closedBy = event;
    }
    return true;
}

function valueOf(values, name) {
    return Object.hasOwn(values, name) ? (values[name] ?? null) : null;
}
