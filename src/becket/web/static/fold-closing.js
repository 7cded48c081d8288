/*
 * What keeps a run from closing: one function a condition.
 *
 * In:    a script, the state of its run.
 * Out:   sentences, each names one thing that is still missing.
 * Never: a condition that can be waived.
 *
 * The truth is guide/closing.py.
 */

import { COUNTERS } from "./fold-compare.js";
import { isSame, isWhole, runWord } from "./fold-reading.js";
import { lastRound, patternFound, SIGN } from "./fold-turn.js";

const LIMIT = [["stopped", "distance"], ["limit"]];
const CONDITIONS = [items, groups, counts, setting, keepers, override, limit, confirmed, people];

/**
 * Return what keeps a run from closing, in words; nothing: it closes once both have signed.
 * @param {object} script
 * @param {object} state
 * @returns {string[]}
 */
export function whatIsMissing(script, state) {
    const seen = { script, state, rounds: new Map(Object.entries(state.rounds)) };
    return CONDITIONS.flatMap((condition) => condition(seen));
}

/**
 * Return the item at which the hoist limit stopped the hook on the new falls; null: not yet.
 * @param {object} script
 * @param {object} state
 * @returns {?object}
 */
export function limitTried(script, state) {
    const counted = script.groups.filter((group) => group.compare === "falls").flatMap((group) => group.items);
    if (counted.length === 0) {
        return null;
    }
    const after = Math.max(...counted.map((id) => state.order.indexOf(id)));
    const name = state.order.slice(after + 1).find((id) => {
        const asks = itemOf(script, id).fields.map((field) => field.name);
        return state.items[id].done && LIMIT.some((names) => names.every((one) => asks.includes(one)));
    });
    return name === undefined ? null : itemOf(script, name);
}

function items({ script, state }) {
    const left = state.order.filter((id) => !state.items[id].done && itemOf(script, id).part !== SIGN);
    if (left.length === 0) {
        return [];
    }
    return [runWord("left_items", { left: left.length, all: state.order.length, do: itemOf(script, left[0]).do })];
}

function groups({ script, state, rounds }) {
    return script.groups.flatMap((group) => {
        const last = lastRound(group, rounds, state.rounds_kept);
        if (last === null) {
            return [runWord("group_open", { label: group.label })];
        }
        return last.agreed ? [] : [runWord("group_differs", { label: group.label })];
    });
}

function counts({ script, state, rounds }) {
    const told = [];
    const compares = script.groups.map((group) => group.compare);
    if (!compares.includes("falls")) {
        told.push(runWord("no_falls_group"));
    }
    if (!compares.includes("indicator")) {
        told.push(runWord("no_indicator_group"));
    }
    const found = patternFound(script, rounds, state.rounds_kept);
    if (script.kind === "change" && found !== null && found.state !== script.after) {
        told.push(runWord("not_the_after", { found: found.state, after: script.after }));
    }
    return told;
}

function setting({ script, state, rounds }) {
    const found = patternFound(script, rounds, state.rounds_kept);
    if (found === null) {
        return [];
    }
    const told = [];
    for (const group of script.groups.filter((one) => one.compare === "indicator")) {
        for (const { values } of lastRound(group, rounds, state.rounds_kept)?.entries ?? []) {
            for (const [name, want] of [["falls", found.falls], ["block", found.block]]) {
                if (Object.hasOwn(values, name) && !isSame(values[name], want)) {
                    told.push(runWord("setting_not_counts", { value: values[name], want }));
                }
            }
        }
    }
    return told;
}

function keepers({ script, state }) {
    if (script.kind !== "change") {
        return [];
    }
    return [["keepers", script.keepers_out], ["clips", script.clips_out]].flatMap(([what, known]) => {
        const [out, back, left] = ["out", "in", "left"].map((way) => sumOf(script, state, `${what}_${way}`));
        const stays = (back ?? 0) + (left ?? 0);
        if (known === null) {
            return [runWord(`${what}_unknown`)];
        }
        if (back === null && known > 0) {
            return [runWord(`${what}_not_counted`, { out: known })];
        }
        const isWhole = known === (out ?? 0) && known === stays;
        return isWhole ? [] : [runWord(`${what}_not_in`, { known, out: out ?? 0, in: stays })];
    });
}

function override({ script, state }) {
    const last = valuesOf(script, state, "override").at(-1);
    return script.kind === "change" && last?.[1] !== "off" ? [runWord("override_not_off")] : [];
}

function limit({ script, state }) {
    return script.kind === "change" && limitTried(script, state) === null ? [runWord("limit_not_tried")] : [];
}

function confirmed({ script }) {
    const open = script.kind === "change" ? script.expects.filter((one) => !one.is_confirmed) : [];
    return open.map((one) => runWord("not_confirmed", { state: one.state }));
}

function people({ state }) {
    const told = COUNTERS.filter((role) => state.people[role] === null).map((role) =>
        runWord("nobody_named", { role }),
    );
    const [one, other] = COUNTERS.map((role) => state.people[role]);
    return one !== null && one === other ? [...told, runWord("one_person")] : told;
}

function valuesOf(script, state, name) {
    return state.order
        .filter((id) => itemOf(script, id).fields.some((field) => field.name === name))
        .filter((id) => Object.hasOwn(state.items[id].values ?? {}, name))
        .map((id) => [id, state.items[id].values[name]]);
}

function sumOf(script, state, name) {
    const once = new Map();
    for (const [id, value] of valuesOf(script, state, name)) {
        if (isWhole(value)) {
            once.set(itemOf(script, id).group ?? id, value);
        }
    }
    return once.size ? [...once.values()].reduce((sum, value) => sum + value, 0) : null;
}

function itemOf(script, id) {
    return script.items.find((item) => item.id === id);
}
