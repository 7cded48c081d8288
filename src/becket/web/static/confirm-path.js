/*
 * The words of a path that is tapped in, and what is odd in it.
 *
 * In:    passes from the drum outward, the end.
 * Out:   text.
 * Never: a tap refused; a path that is proposed.
 */

import { word } from "./words.js";

/**
 * Return the path in words, the dead end last.
 * @param {{place: string, sheave: number}[]} path
 * @param {?string} end "block", "head NAME", null: not yet
 * @returns {string[]}
 */
export function wordsOf(path, end) {
    const words = path.map(passWords);
    return end === null ? words : [...words, word("confirm.end", { end })];
}

/**
 * Return what is odd about the pass or the end at a place, or null.
 * @param {{place: string, sheave: number}[]} path
 * @param {?string} end
 * @param {number} index
 * @returns {?string}
 */
export function oddTap(path, end, index) {
    if (index === path.length) return oddEnd(path, end);
    const [before, now] = [path[index - 1], path[index]];
    if (path.slice(0, index).some(({ place, sheave }) => place === now.place && sheave === now.sheave)) {
        return word("confirm.odd.twice", { now: passWords(now) });
    }
    if (before === undefined) return now.place === "block" ? word("confirm.odd.starts") : null;
    if (before.place !== now.place) return null;
    return word("confirm.odd.same_place", { before: passWords(before), now: passWords(now), place: placeWords(now.place) });
}

function oddEnd(path, end) {
    const last = path.at(-1);
    if (last === undefined || end.split(" ")[0] !== last.place) return null;
    const words = { before: passWords(last), now: word("confirm.end", { end }), place: placeWords(last.place) };
    return word("confirm.odd.end_beside", words);
}

function passWords({ place, sheave }) {
    return word("confirm.pass", { place: placeWords(place), sheave });
}

function placeWords(place) {
    return word(`confirm.${place}`);
}
