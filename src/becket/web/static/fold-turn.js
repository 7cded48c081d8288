/*
 * The order in which a run asks its items, and what its rounds found.
 *
 * In:    a script, the lot that was drawn as the run began, the compared rounds.
 * Out:   items in order; pairs that stand side by side; the pattern that was counted.
 * Never: chance: the lot is an event like every other.
 *
 * The truth is guide/turn.py and guide/found.py.
 */

import { isWhole } from "./fold-reading.js";

export const SIGN = "sign";
const PAUSE = "pause";

/**
 * Return the items in the order of a run.
 * @param {object} script
 * @param {*} lot bit k set: the two items of pair k change places
 * @returns {object[]}
 */
export function itemsInTurn(script, lot) {
    const drawn = isWhole(lot) && lot >= 0 ? lot : 0;
    const items = [...script.items];
    pairsOf(script).forEach(([first, second], number) => {
        if (Math.floor(drawn / 2 ** number) % 2 === 1) {
            [items[first], items[second]] = [items[second], items[first]];
        }
    });
    return items;
}

/**
 * Return, for each item of a pair by lot whose two stand side by side, the other one.
 * @param {object} script
 * @returns {Map<string, string>}
 */
export function partnersOf(script) {
    const found = new Map();
    for (const [first, second] of pairsOf(script)) {
        if (second === first + 1) {
            const [one, other] = [script.items[first].id, script.items[second].id];
            found.set(one, other);
            found.set(other, one);
        }
    }
    return found;
}

/**
 * Return the names of the pauses of a script, in order.
 * @param {object} script
 * @returns {string[]}
 */
export function pausesOf(script) {
    const parts = script.items.map((item) => item.part).filter((part) => part.startsWith(PAUSE));
    return [...new Set(parts)];
}

/**
 * Return the compared round of a group, if it is the one that the group is in; null: it is not compared.
 * @param {object} group
 * @param {Map<string, number>} rounds
 * @param {object[]} kept
 * @returns {?object}
 */
export function lastRound(group, rounds, kept) {
    return kept.find((one) => one.group === group.name && one.round === rounds.get(group.name)) ?? null;
}

/**
 * Return the pattern that both persons counted in the last round of falls; null: none yet.
 * @param {object} script
 * @param {Map<string, number>} rounds
 * @param {object[]} kept
 * @returns {?object}
 */
export function patternFound(script, rounds, kept) {
    for (const group of script.groups) {
        const last = group.compare === "falls" ? lastRound(group, rounds, kept) : null;
        if (last?.agreed) {
            return script.expects.find((one) => one.state === last.finds) ?? null;
        }
    }
    return null;
}

/**
 * Return the block that both persons read off its plate before they counted; null: they were not asked.
 * @param {object} script
 * @param {Map<string, number>} rounds
 * @param {object[]} kept
 * @returns {*}
 */
export function blockNamed(script, rounds, kept) {
    for (const group of script.groups) {
        const last = group.compare === "equal" ? lastRound(group, rounds, kept) : null;
        if (last?.agreed && Object.hasOwn(last.entries[0].values, "block")) {
            return last.entries[0].values.block;
        }
    }
    return null;
}

function pairsOf(script) {
    const pairs = [];
    script.items.forEach((item, place) => {
        if (!item.by_lot || item.group === null) {
            return;
        }
        const second = script.items.findIndex((one, other) => other > place && one.group === item.group);
        if (second !== -1) {
            pairs.push([place, second]);
        }
    });
    return pairs;
}
