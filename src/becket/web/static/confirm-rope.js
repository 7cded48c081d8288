/*
 * The rope as it was tapped: head above, block below, places from left to right; nothing that was not tapped.
 *
 * In:    the keys of the page, the taps.
 * Out:   a small picture with its words.
 * Never: the typed pattern; which side a rope runs on.
 */

import { wordsOf } from "./confirm-path.js";
import { drawn } from "./element.js";
import { word } from "./words.js";

const WIDE = 328;
const HEAD = 44;
const BLOCK = 156;
const RADIUS = 20;

/**
 * Return the picture of what was tapped so far.
 * @param {HTMLElement} taps holds the keys
 * @param {{place: string, sheave: number}[]} path
 * @param {?string} end
 * @returns {SVGElement}
 */
export function drawRope(taps, path, end) {
    const places = { head: across(taps, "head"), block: across(taps, "block") };
    const points = path.map(({ place, sheave }) => [places[place].get(sheave) ?? WIDE / 2, place === "head" ? HEAD : BLOCK]);
    const line = points.length ? [[points[0][0], 4], ...points, ...endPoint(points, end)] : [];
    const words = wordsOf(path, end).join(", ");
    const said = words ? word("confirm.picture", { path: words }) : word("confirm.picture_none");
    const parts = [
        drawn("polyline", { class: "rope-line", points: line.map((point) => point.join(",")).join(" ") }),
        ...wheels(places.head, HEAD),
        ...wheels(places.block, BLOCK),
    ];
    if (end !== null && line.length) {
        const [x, y] = line.at(-1);
        parts.push(drawn("rect", { class: "rope-end", x: x - 9, y: y - 6, width: 18, height: 12 }));
    }
    return drawn("svg", { viewBox: `0 0 ${WIDE} 200`, role: "img", "aria-label": said }, ...parts);
}

/** The sheaves of a row of keys by number, at their places across the picture. */
function across(taps, place) {
    const rows = [...taps.querySelectorAll(`[data-place=${place}]`)];
    const upper = rows.filter((key) => key.parentElement === rows[0]?.parentElement);
    const lower = rows.filter((key) => !upper.includes(key));
    const order = upper.flatMap((key, at) => [key, lower[at]].filter(Boolean)).map((key) => Number(key.dataset.sheave));
    const step = WIDE / (order.length + 1);
    return new Map(order.map((number, at) => [number, Math.round(step * (at + 1))]));
}

function wheels(places, y) {
    return [...places].flatMap(([number, x]) => {
        const label = drawn("text", { class: "rope-number", x, y: y + 7 });
        label.textContent = String(number);
        return [drawn("circle", { class: "rope-wheel", cx: x, cy: y, r: Math.min(RADIUS, WIDE / (places.size + 1) / 2 - 1) }), label];
    });
}

function endPoint(points, end) {
    if (end === null) return [];
    const x = Math.min(WIDE - 12, points.at(-1)[0] + 26);
    return [[x, end === "block" ? BLOCK - 34 : HEAD + 34]];
}
